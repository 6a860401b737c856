/**
 * Causes with their weights: what each watch says of how likely a cause is, made into shares of 1,
 * heaviest first. Causes that look alike from what was measured are named together with equal
 * weight, because no honest reader can part them (firmware-contract/contract.md, section 6).
 */
import { CAUSES, type Cause, type WeighedCause } from '../../../shared/text/en/alarms/kinds.ts';

/**
 * What a cause must weigh at least, as a share of all, to be named; a watch hands on half of it,
 * which the clues may raise (./reweigh-by-clues.ts).
 */
export const MIN_NAMED_WEIGHT = 0.04;
const MIN_CONSIDERED_WEIGHT = 0.02;

/**
 * Shares of 1 (two decimals), heaviest first, ties in the contract's order; causes without weight
 * or under `minWeight` are left out.
 */
export function weighCauses(
  parts: Partial<Record<Cause, number>>,
  minWeight = MIN_CONSIDERED_WEIGHT,
): WeighedCause[] {
  let total = 0;
  for (const weight of Object.values(parts)) total += Math.max(0, weight);
  const found: WeighedCause[] = [];
  for (const cause of CAUSES) {
    const fraction = (parts[cause] ?? 0) / total;
    if (fraction >= minWeight) found.push({ cause, weight: Math.round(100 * fraction) / 100 });
  }
  return found.sort((a, b) => b.weight - a.weight);
}
