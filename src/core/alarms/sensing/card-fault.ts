/**
 * Card and sensor that cannot both be right, as the checks of the first hour find them (../first-hour/first-checks.ts): told once, of the card and not of
 * the well, until the check that spoke agrees. What changes after a card was found to agree is news of the well, but for a unit; a new
 * card is asked anew.
 */
import type { CheckKind } from '../../../../shared/text/en/checks/checks.ts';
import { changedUnit } from '../first-hour/check-pressure.ts';
import { isAfterReset, memoryNumber } from '../scene-queries.ts';
import { runFirstChecks, type Check } from '../first-hour/first-checks.ts';
import type { Finding, WatchMemory, Scene } from '../scene.ts';

/** Pressure in the wrong unit makes the tank's checks meaningless: of these the first alone speaks. */
const PRESSURE_CHECKS: readonly CheckKind[] = ['pressure-unit', 'cut-out', 'precharge', 'tank-fill'];

/** The finding; `unchanged` where the one that stands neither stands out any more nor is over; undefined where there is none. */
export function cardFault(scene: Scene, memo: WatchMemory): Finding | 'unchanged' | undefined {
  const first = scene.pump.cycles[0];
  if (!first || !isAfterReset(scene, first.startedMs)) return undefined;
  const unit = changedUnit(scene);
  if (unit) return unit;
  resetOnCardChange(scene, memo);
  if (memo['cardAgreed'] === true) return undefined;
  const checks = runFirstChecks(scene);
  const found = checks.filter(({ impossible }) => impossible !== undefined);
  const ofPressure = found.find(({ what }) => PRESSURE_CHECKS.includes(what));
  const reported = found.filter((check) => check === ofPressure || !PRESSURE_CHECKS.includes(check.what));
  if (reported.length > 0) {
    memo['cardDiffers'] = reported.map(({ what }) => what).join(' ');
    // A card that came since is asked with runs from before it: it differs since it came.
    return finding(reported, Math.max(first.startedMs, memoryNumber(memo, 'cardMs', 0)));
  }
  if (stillDiffers(checks, memo)) return 'unchanged';
  delete memo['cardDiffers'];
  if (scene.pump.pinned) memo['cardAgreed'] = true;
  return undefined;
}

function finding(reported: readonly Check[], sinceMs: number): Finding {
  const parts = reported.map(({ impossible }) => impossible!);
  return { ...parts[0]!, sinceMs, why: parts.map(({ why }) => why).join(' ') };
}

function stillDiffers(checks: readonly Check[], memo: WatchMemory): boolean {
  const before = typeof memo['cardDiffers'] === 'string' ? memo['cardDiffers'].split(' ') : [];
  return checks.some(({ what, state }) => state === 'differs' && before.includes(what));
}

/** What the checks ask of the card, in one line: another line is another card. */
function resetOnCardChange({ well, pump, atMs }: Scene, memo: WatchMemory): void {
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
  if (memo['card'] === cardValues) return;
  if (memo['card'] !== undefined) memo['cardMs'] = atMs;
  memo['card'] = cardValues;
  delete memo['cardAgreed'];
  delete memo['cardDiffers'];
}
