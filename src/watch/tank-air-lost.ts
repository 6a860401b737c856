/**
 * The tank has lost its air: what it gives between two starts shrinks, and so does every fill. A burst bladder ends at the same place in a day
 * that takes a leaking valve weeks; from pressure alone they look alike, and how fast it went is all the evidence there is.
 */
import { speaksForAll } from './company.ts';
import { airSeen, fillsSeen, type AirSeen, type FillsSeen } from './tank-air.ts';
import { numberOf } from './facts.ts';
import { sayPressure, sayShare, sayTime, tidy } from './say.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

/** Of the absolute charge: 18 % lost of 38 psi is 9 psi, more than seasons and a hurried gauge make. */
const LOW_SHARE = 0.82;
const BACK_SHARE = 0.88;
/** The median run is down to this share of what the quickest took: use would have made it longer. */
const FILL_SHARE = 0.72;
const FILL_BACK = 0.8;
/** Behind a valve: a quarter of the runs is down to this share of the shortest that were learnt. */
const LEAST_SHARE = 0.55;
/** Of the least time reckoned from the card: half leaves room for a card that is a size off. */
const RECKONED_SHARE = 0.5;
/** From whole to this within a day is not a valve that weeps. Judged once, when it is first told. */
const FAST_MS = 86_400_000;

export const tankAirLost: Watch = {
  alarm: 'tank-air-lost',
  each: 'pump',
  on: ['cycle'],
  onDelayS: 0,
  offDelayS: 86_400,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  if (!speaksForAll(scene)) return undefined;
  const air = airSeen(scene, memo);
  const fills = fillsSeen(scene);
  noteDecline(scene, memo, air?.share ?? fills?.share);
  if (air) {
    // The clock must not contradict: a charge that reads low while fills take as long as ever is a wrong card.
    const agrees = fills === undefined || fills.share < 0.95;
    if (air.share < LOW_SHARE && agrees) return byAir(scene, memo, air);
    if (air.share > BACK_SHARE && fills !== undefined && fills.share > FILL_BACK) return null;
  }
  if (!fills) return undefined;
  const limit =
    scene.pump.card.control === 'constant-pressure-valve'
      ? LEAST_SHARE
      : Math.min(FILL_SHARE, 1 - (3 * (scene.pump.pinned?.ranLowS?.spread ?? 0)) / fills.normalS);
  if (fills.share > FILL_BACK) return air || !fills.learnt ? undefined : null;
  if (fills.share > (fills.learnt ? Math.max(0.4, limit) : RECKONED_SHARE)) return undefined;
  if (!fills.learnt) return fromFirst(fills);
  return {
    sinceMs: fills.sinceMs,
    why: `A fill takes ${sayTime(fills.fillS)} now, where it took ${sayTime(fills.normalS)}, between the same pressures: the tank gives about ${sayShare(1 - fills.share)} less water a cycle.`,
    evidence: { fillS: tidy(fills.fillS, 1), normalS: tidy(fills.normalS, 1), share: tidy(fills.share) },
    causes: causesOf(scene, memo),
  };
}

/** Never learnt, since it was so from the first: the tank is without air, or is not the card's. */
function fromFirst(fills: FillsSeen): Finding {
  return {
    sinceMs: fills.sinceMs,
    why: `A fill takes ${sayTime(fills.fillS)}; this pump could not fill the card's tank in under ${sayTime(fills.normalS)}: the tank holds little air, or is smaller than the card says.`,
    evidence: { fillS: tidy(fills.fillS, 1), leastS: tidy(fills.normalS, 1), share: tidy(fills.share) },
    causes: weigh({ 'tank-air-lost': 0.4, 'bladder-burst': 0.35, 'bad-card': 0.25 }),
  };
}

function byAir(scene: Scene, memo: Memo, air: AirSeen): Finding {
  const from = numberOf(memo, 'fallingSinceMs', scene.atMs);
  return {
    sinceMs: from,
    why: `The tank's air charge reads ${sayPressure(Math.max(0, air.airKpa))} from its fills; ${sayPressure(air.normalKpa)} is what it should hold.`,
    evidence: { airKpa: tidy(air.airKpa, 0), normalKpa: tidy(air.normalKpa, 0), share: tidy(air.share) },
    causes: causesOf(scene, memo),
  };
}

/** Remembers when the charge was last whole, and since when it has been falling. */
function noteDecline(scene: Scene, memo: Memo, share: number | undefined): void {
  if (share === undefined) return;
  if (share > 0.94) {
    memo['wholeMs'] = scene.atMs;
    delete memo['fast'];
    delete memo['fallingSinceMs'];
  } else memo['fallingSinceMs'] = numberOf(memo, 'fallingSinceMs', scene.atMs);
}

function causesOf(scene: Scene, memo: Memo): Finding['causes'] {
  const wholeMs = numberOf(memo, 'wholeMs', NaN);
  memo['fast'] ??= Number.isFinite(wholeMs) && scene.atMs - wholeMs < FAST_MS;
  return weigh(
    memo['fast'] === true
      ? { 'bladder-burst': 0.5, 'tank-air-lost': 0.45 }
      : { 'tank-air-lost': 0.55, 'bladder-burst': 0.4 },
  );
}
