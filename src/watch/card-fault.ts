/**
 * Card and sensor that cannot both be right, as the checks of the first hour find them (./first-check.ts): told once, of the card and not of
 * the well, until the check that spoke agrees. What changes after a card was found to agree is news of the well, but for a unit; a new
 * card is asked anew.
 */
import type { CheckKind } from '../../shared/words/checks.ts';
import { changedUnit } from './check-pressure.ts';
import { isFresh, numberOf } from './facts.ts';
import { firstCheck, type Check } from './first-check.ts';
import type { Finding, Memo, Scene } from './scene.ts';

/** Pressure in the wrong unit makes the tank's checks meaningless: of these the first alone speaks. */
const OF_PRESSURE: readonly CheckKind[] = ['pressure-unit', 'cut-out', 'precharge', 'tank-fill'];

/** The finding; `as-before` where the one that stands neither stands out any more nor is over; undefined where there is none. */
export function cardFault(scene: Scene, memo: Memo): Finding | 'as-before' | undefined {
  const first = scene.pump.cycles[0];
  if (!first || !isFresh(scene, first.startedMs)) return undefined;
  const unit = changedUnit(scene);
  if (unit) return unit;
  forgetOtherCard(scene, memo);
  if (memo['cardAgreed'] === true) return undefined;
  const checks = firstCheck(scene);
  const found = checks.filter(({ impossible }) => impossible !== undefined);
  const ofPressure = found.find(({ what }) => OF_PRESSURE.includes(what));
  const told = found.filter((check) => check === ofPressure || !OF_PRESSURE.includes(check.what));
  if (told.length > 0) {
    memo['cardDiffers'] = told.map(({ what }) => what).join(' ');
    // A card that came since is asked with runs from before it: it differs since it came.
    return finding(told, Math.max(first.startedMs, numberOf(memo, 'cardMs', 0)));
  }
  if (stillDiffers(checks, memo)) return 'as-before';
  delete memo['cardDiffers'];
  if (scene.pump.pinned) memo['cardAgreed'] = true;
  return undefined;
}

function finding(told: readonly Check[], sinceMs: number): Finding {
  const parts = told.map(({ impossible }) => impossible!);
  return { ...parts[0]!, sinceMs, why: parts.map(({ why }) => why).join(' ') };
}

function stillDiffers(checks: readonly Check[], memo: Memo): boolean {
  const before = typeof memo['cardDiffers'] === 'string' ? memo['cardDiffers'].split(' ') : [];
  return checks.some(({ what, state }) => state === 'differs' && before.includes(what));
}

/** What the checks ask of the card, in one line: another line is another card. */
function forgetOtherCard({ well, pump, atMs }: Scene, memo: Memo): void {
  const { switch: points, tank } = well.card;
  const { maxAmps, volts, ratedLPerS, control, clamp } = pump.card;
  const asked = [
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
  if (memo['card'] === asked) return;
  if (memo['card'] !== undefined) memo['cardMs'] = atMs;
  memo['card'] = asked;
  delete memo['cardAgreed'];
  delete memo['cardDiffers'];
}
