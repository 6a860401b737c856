/**
 * The wells that thresholds are tried on, always the same: of each family of faults the lightest
 * size, where a threshold decides most, and sound wells of both plants for a month. Held-out wells
 * are none of it, since whoever reads the result tunes by it.
 */
import type { CorpusCase } from '../score/case.ts';
import { casesOf } from '../score/sets.ts';
import { shortenCases } from '../score/shorten.ts';

const SOUND_DAYS = 30;
/** The first plant has many families of some kinds, and each of these cases costs as much. */
const MAX_FAMILIES_A_KIND = 2;
const MAX_FAULT_DAYS = 40;
const SOUND_STEP = 4;
/** A well that is read five times a second costs more than all others together. */
const MIN_STEP_S = 1;

/**
 * Faults and sound wells by turns, so that any beginning of it is a smaller set of the same kind.
 */
export function fixedSet(): CorpusCase[] {
  const first = casesOf('first', false);
  const tuned = casesOf('tuned', false).filter(isAffordable);
  const faults = [...lightest(tuned), ...fewOfEachKind(lightest(first))];
  const sound = shortenCases(
    [...tuned.filter(isHealthy), ...first.filter(isHealthy).filter((_, at) => at % SOUND_STEP === 0)],
    SOUND_DAYS,
  );
  return interleave(faults, sound);
}

export function isAffordable({ node }: CorpusCase): boolean {
  return node.everyS === 0 || node.everyS >= MIN_STEP_S;
}

function isHealthy({ is }: CorpusCase): boolean {
  return is === 'healthy';
}

/** Of each family of faults. */
function lightest(cases: readonly CorpusCase[]): CorpusCase[] {
  const found = new Map<string, CorpusCase>();
  for (const one of cases) {
    const { is, fault } = one;
    if (is !== 'fault' || !fault) continue;
    const known = found.get(fault.family);
    if (!known || fault.size < known.fault!.size) found.set(fault.family, one);
  }
  return [...found.values()];
}

function fewOfEachKind(cases: readonly CorpusCase[]): CorpusCase[] {
  const counts = new Map<string, number>();
  return cases.filter(({ fault, days }) => {
    const kind = fault!.alarms[0]!;
    const count = counts.get(kind) ?? 0;
    if (count >= MAX_FAMILIES_A_KIND || days > MAX_FAULT_DAYS) return false;
    counts.set(kind, count + 1);
    return true;
  });
}

/** Spreads the fewer ones evenly among the more. */
function interleave(more: readonly CorpusCase[], fewer: readonly CorpusCase[]): CorpusCase[] {
  const placed = [
    ...more.map((one, at) => ({ one, place: at / more.length })),
    ...fewer.map((one, at) => ({ one, place: (at + 0.5) / fewer.length })),
  ];
  return placed.toSorted((a, b) => a.place - b.place).map(({ one }) => one);
}
