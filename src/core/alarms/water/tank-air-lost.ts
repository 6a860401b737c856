/**
 * The tank has lost its air: what it gives between two starts shrinks, and so does every fill. A burst bladder ends at the same place in a day
 * that takes a leaking valve weeks; from pressure alone they look alike, and how fast it went is all the evidence there is.
 */
import { DAY_MS, DAY_S } from '../../../../shared/units/duration.ts';
import { reportsForGroup } from '../pump-peers.ts';
import { measureAir, measureFills, type MeasuredAir, type MeasuredFills } from './measured-air.ts';
import { memoryNumber } from '../scene-queries.ts';
import { formatPressure, formatPercent, formatDuration, roundTo } from '../format.ts';
import type { Finding, WatchMemory, Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/** Of the absolute charge: 18 % lost of 38 psi is 9 psi, more than seasons and a hurried gauge make. */
const LOW_RATIO = 0.82;
const CLEAR_RATIO = 0.88;
/** The median run is down to this share of what the quickest took: use would have made it longer. */
const LOW_FILL_RATIO = 0.72;
const CLEAR_FILL_RATIO = 0.8;
/** Behind a valve: a quarter of the runs is down to this share of the shortest that were learnt. */
const VALVE_LOW_FILL_RATIO = 0.55;
/** Of the least time reckoned from the card: half leaves room for a card that is a size off. */
const CALCULATED_FILL_RATIO = 0.5;
/** From whole to this within a day is not a valve that weeps. Judged once, when it is first told. */
const MAX_FAST_MS = DAY_MS;

export const tankAirLost: Watch = {
  alarm: 'tank-air-lost',
  scope: 'pump',
  triggers: ['cycle'],
  onDelayS: 0,
  offDelayS: DAY_S,
  evaluate,
};

function evaluate(scene: Scene, memo: WatchMemory): Finding | null | undefined {
  if (!reportsForGroup(scene)) return undefined;
  const air = measureAir(scene, memo);
  const fills = measureFills(scene);
  trackDecline(scene, memo, air?.ratio ?? fills?.ratio);
  if (air) {
    // The clock must not contradict: a charge that reads low while fills take as long as ever is a wrong card.
    const agrees = fills === undefined || fills.ratio < 0.95;
    if (air.ratio < LOW_RATIO && agrees) return airFinding(scene, memo, air);
    if (air.ratio > CLEAR_RATIO && fills !== undefined && fills.ratio > CLEAR_FILL_RATIO) return null;
  }
  if (!fills) return undefined;
  const limit =
    scene.pump.card.control === 'constant-pressure-valve'
      ? VALVE_LOW_FILL_RATIO
      : Math.min(LOW_FILL_RATIO, 1 - (3 * (scene.pump.pinned?.ranLowS?.spread ?? 0)) / fills.normalS);
  if (fills.ratio > CLEAR_FILL_RATIO) return air || !fills.learned ? undefined : null;
  if (fills.ratio > (fills.learned ? Math.max(0.4, limit) : CALCULATED_FILL_RATIO)) return undefined;
  if (!fills.learned) return shortFromFirstFinding(fills);
  return {
    sinceMs: fills.sinceMs,
    why: `A fill takes ${formatDuration(fills.fillS)} now, where it took ${formatDuration(fills.normalS)}, between the same pressures: the tank gives about ${formatPercent(1 - fills.ratio)} less water a cycle.`,
    evidence: {
      fillS: roundTo(fills.fillS, 1),
      normalS: roundTo(fills.normalS, 1),
      share: roundTo(fills.ratio),
    },
    causes: causesOf(scene, memo),
  };
}

/** Never learnt, since it was so from the first: the tank is without air, or is not the card's. */
function shortFromFirstFinding(fills: MeasuredFills): Finding {
  return {
    sinceMs: fills.sinceMs,
    why: `A fill takes ${formatDuration(fills.fillS)}; this pump could not fill the card's tank in under ${formatDuration(fills.normalS)}: the tank holds little air, or is smaller than the card says.`,
    evidence: {
      fillS: roundTo(fills.fillS, 1),
      leastS: roundTo(fills.normalS, 1),
      share: roundTo(fills.ratio),
    },
    causes: weighCauses({ 'tank-air-lost': 0.4, 'bladder-burst': 0.35, 'bad-card': 0.25 }),
  };
}

function airFinding(scene: Scene, memo: WatchMemory, air: MeasuredAir): Finding {
  const from = memoryNumber(memo, 'fallingSinceMs', scene.atMs);
  return {
    sinceMs: from,
    why: `The tank's air charge reads ${formatPressure(Math.max(0, air.prechargeKpa))} from its fills; ${formatPressure(air.normalPrechargeKpa)} is what it should hold.`,
    evidence: {
      airKpa: roundTo(air.prechargeKpa, 0),
      normalKpa: roundTo(air.normalPrechargeKpa, 0),
      share: roundTo(air.ratio),
    },
    causes: causesOf(scene, memo),
  };
}

/** Remembers when the charge was last whole, and since when it has been falling. */
function trackDecline(scene: Scene, memo: WatchMemory, ratio: number | undefined): void {
  if (ratio === undefined) return;
  if (ratio > 0.94) {
    memo['wholeMs'] = scene.atMs;
    delete memo['fast'];
    delete memo['fallingSinceMs'];
  } else memo['fallingSinceMs'] = memoryNumber(memo, 'fallingSinceMs', scene.atMs);
}

function causesOf(scene: Scene, memo: WatchMemory): Finding['causes'] {
  const wholeMs = memoryNumber(memo, 'wholeMs', NaN);
  memo['fast'] ??= Number.isFinite(wholeMs) && scene.atMs - wholeMs < MAX_FAST_MS;
  return weighCauses(
    memo['fast'] === true
      ? { 'bladder-burst': 0.5, 'tank-air-lost': 0.45 }
      : { 'tank-air-lost': 0.55, 'bladder-burst': 0.4 },
  );
}
