/**
 * Card and sensor that cannot both be right, as the checks of the first hour find them
 * (../first-hour/first-checks.ts): told once, of the card and not of the well, until the check that
 * spoke agrees. What changes after a card was found to agree is news of the well, but for a unit; a
 * new card is asked anew.
 */
import type { CheckKind } from '../../../../shared/text/en/checks/checks.ts';
import { DAY_MS } from '../../../../shared/units/duration.ts';
import { changedUnit } from '../first-hour/check-pressure.ts';
import { isAfterReset } from '../scene-queries.ts';
import { runFirstChecks, type Check } from '../first-hour/first-checks.ts';
import { cannotTell, type Active, type CannotTell } from '../evaluation.ts';
import type { Scene } from '../scene.ts';

/**
 * Pressure in the wrong unit makes the tank's checks meaningless: of these the first alone speaks.
 */
const PRESSURE_CHECKS: readonly CheckKind[] = ['pressure-unit', 'cut-out', 'precharge', 'tank-fill'];

export interface CardMemory {
  /** The card's values that the checks compare, in one line, and when they last changed. */
  card?: string;
  cardMs?: number;
  /** A card that was found to agree; else the checks that differed, by name. */
  cardAgreed?: true;
  cardDiffers?: string;
  /** Since when the running current has agreed with the card. */
  ampsAgreeSinceMs?: number;
}

/**
 * A nameplate that agreed with the runs of a week was right, though no normal was learned of them:
 * what the pump draws later is news of the well (argued, not measured).
 */
const MIN_AGREEING_MS = 7 * DAY_MS;

/**
 * Undefined if card and readings agree; cannot tell while a check still differs, but no longer by
 * an impossible amount.
 */
export function cardFault(scene: Scene, memory: CardMemory): Active | CannotTell | undefined {
  const first = scene.pump.cycles[0];
  if (!first || !isAfterReset(scene, first.startedMs)) return undefined;
  const unit = changedUnit(scene);
  if (unit) return unit;
  resetOnCardChange(scene, memory);
  if (memory.cardAgreed === true) return undefined;
  const all = runFirstChecks(scene);
  const checks = haveAmpsAgreedForLong(scene, all, memory) ? all.filter(isNotOfAmps) : all;
  const found = checks.filter(({ impossible }) => impossible !== undefined);
  const ofPressure = found.find(({ what }) => PRESSURE_CHECKS.includes(what));
  const reported = found.filter((check) => check === ofPressure || !PRESSURE_CHECKS.includes(check.what));
  if (reported.length > 0) {
    memory.cardDiffers = reported.map(({ what }) => what).join(' ');
    // A card that came since is asked with runs from before it: it differs since it came.
    return finding(reported, Math.max(first.startedMs, memory.cardMs ?? 0));
  }
  if (stillDiffers(checks, memory)) return cannotTell('near-limit');
  delete memory.cardDiffers;
  if (scene.pump.pinned) memory.cardAgreed = true;
  return undefined;
}

function haveAmpsAgreedForLong({ atMs }: Scene, checks: readonly Check[], memory: CardMemory): boolean {
  const since = memory.ampsAgreeSinceMs;
  if (since !== undefined && atMs - since >= MIN_AGREEING_MS) return true;
  const state = checks.find(({ what }) => what === 'running-amps')?.state;
  if (state === 'agrees') memory.ampsAgreeSinceMs ??= atMs;
  else delete memory.ampsAgreeSinceMs;
  return false;
}

function isNotOfAmps({ what }: Check): boolean {
  return what !== 'running-amps';
}

function finding(reported: readonly Check[], sinceMs: number): Active {
  const parts = reported.map(({ impossible }) => impossible!);
  const first = parts[0]!;
  if (parts.length === 1) return { is: 'active', sinceMs, ...first };
  return {
    ...first,
    is: 'active',
    sinceMs,
    reason: 'several-card-contradictions',
    figures: Object.assign(
      { reasons: parts.map(({ reason }) => reason) },
      ...parts.map(({ figures }) => figures),
    ),
  };
}

function stillDiffers(checks: readonly Check[], memory: CardMemory): boolean {
  const before = memory.cardDiffers?.split(' ') ?? [];
  return checks.some(({ what, state }) => state === 'differs' && before.includes(what));
}

/** What the checks ask of the card, in one line: another line is another card. */
function resetOnCardChange({ well, pump, atMs }: Scene, memory: CardMemory): void {
  const { switch: points, tank } = well.card;
  const { maxAmps, volts, ratedLPerS, control, clamp } = pump.card;
  const cardValues = [
    points.cutInKpa,
    points.cutOutKpa,
    tank?.volumeL,
    tank?.prechargeKpa,
    maxAmps,
    volts,
    ratedLPerS,
    control,
    clamp,
  ]
    .map((value) => value ?? '-')
    .join(' ');
  if (memory.card === cardValues) return;
  if (memory.card !== undefined) memory.cardMs = atMs;
  memory.card = cardValues;
  delete memory.cardAgreed;
  delete memory.cardDiffers;
  delete memory.ampsAgreeSinceMs;
}
