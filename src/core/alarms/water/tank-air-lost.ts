/**
 * The tank has lost its air: what it gives between two starts shrinks, and so does every fill. A
 * burst bladder ends at the same place in a day that takes a leaking valve weeks; from pressure
 * alone they look alike, and how fast it went is all the evidence there is.
 */
import { DAY_MS } from '../../../../shared/units/duration.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { reportsForGroup } from '../pump-peers.ts';
import {
  measureAir,
  measureFills,
  type AirMemory,
  type MeasuredAir,
  type MeasuredFills,
} from './measured-air.ts';
import { maySuddenlyFall } from '../pump/pressure-shift.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * Of the absolute charge: 18 % lost of 38 psi is 9 psi, and of the 28 psi of a 30/50 switch 8 psi,
 * more than seasons and a hurried gauge make. Argued, no source.
 */
const LOW_RATIO = 0.82;
const CLEAR_RATIO = 0.88;
/**
 * The median run is down to this share of what the quickest took: use would have made it longer.
 */
const LOW_FILL_RATIO = 0.72;
const CLEAR_FILL_RATIO = 0.8;
/** Behind a valve: a quarter of the runs is down to this share of the shortest that were learnt. */
const VALVE_LOW_FILL_RATIO = 0.55;
/** Of the least time reckoned from the card: half leaves room for a card that is a size off. */
const CALCULATED_FILL_RATIO = 0.5;
/**
 * From whole to this within a day is not a valve that weeps. Judged once, when it is first told.
 */
const MAX_FAST_MS = DAY_MS;

interface AirLostMemory extends AirMemory {
  /** When the charge was last whole, and since when it has been falling. */
  wholeMs?: number;
  fallingSinceMs?: number;
  /** It went within a day; judged when it is first told. */
  fast?: boolean;
}

export const tankAirLost: Watch<AirLostMemory> = {
  alarm: 'tank-air-lost',
  scope: 'pump',
  triggers: ['cycle'],
  initialMemory: () => ({ air: [] }),
  evaluate,
};

function evaluate(scene: Scene, memory: AirLostMemory): Evaluation {
  if (!reportsForGroup(scene)) return cannotTell('other-pump');
  const air = measureAir(scene, memory);
  const fills = measureFills(scene);
  const hasAir = air.is === 'measured';
  const hasFills = fills.is === 'measured';
  trackDecline(scene, memory, hasAir ? air.ratio : hasFills ? fills.ratio : undefined);
  if (hasAir) {
    // The clock must not contradict: a charge that reads low while fills take as long as ever is a
    // wrong card.
    const agrees = !hasFills || fills.ratio < 0.95;
    if (air.ratio < LOW_RATIO && agrees) return airFinding(scene, memory, air);
    if (air.ratio > CLEAR_RATIO && hasFills && fills.ratio > CLEAR_FILL_RATIO) return CLEAR;
  }
  if (!hasFills) return fills;
  // A tank that is empty before the pump starts has short fills as well, of too much air.
  if (maySuddenlyFall(scene)) return cannotTell('other-alarm-explains');
  const limit =
    scene.pump.card.control === 'constant-pressure-valve'
      ? VALVE_LOW_FILL_RATIO
      : Math.min(LOW_FILL_RATIO, 1 - (3 * (scene.pump.pinned?.ranLowS?.spread ?? 0)) / fills.normalS);
  if (fills.ratio > CLEAR_FILL_RATIO) {
    if (hasAir) return cannotTell(air.ratio < LOW_RATIO ? 'measurements-disagree' : 'near-limit');
    return fills.learned ? CLEAR : cannotTell('learning');
  }
  if (fills.ratio > (fills.learned ? Math.max(0.4, limit) : CALCULATED_FILL_RATIO))
    return cannotTell('near-limit');
  if (!fills.learned) return shortFromFirstFinding(fills);
  return {
    is: 'active',
    sinceMs: fills.sinceMs,
    reason: 'fills-shorter',
    figures: { fillS: fills.fillS, normalS: fills.normalS, lossRatio: 1 - fills.ratio },
    evidence: {
      fillS: roundTo(fills.fillS, 1),
      normalS: roundTo(fills.normalS, 1),
      share: roundTo(fills.ratio),
    },
    causes: causesOf(scene, memory),
  };
}

/** Never learnt, since it was so from the first: the tank is without air, or is not the card's. */
function shortFromFirstFinding(fills: MeasuredFills): Active {
  return {
    is: 'active',
    sinceMs: fills.sinceMs,
    reason: 'fills-too-short-for-tank',
    figures: { fillS: fills.fillS, minFillS: fills.normalS },
    evidence: {
      fillS: roundTo(fills.fillS, 1),
      leastS: roundTo(fills.normalS, 1),
      share: roundTo(fills.ratio),
    },
    causes: weighCauses({ 'tank-air-lost': 0.4, 'bladder-burst': 0.35, 'bad-card': 0.25 }),
  };
}

function airFinding(scene: Scene, memory: AirLostMemory, air: MeasuredAir): Active {
  return {
    is: 'active',
    sinceMs: memory.fallingSinceMs ?? scene.atMs,
    reason: 'precharge-low',
    figures: {
      prechargeKpa: Math.max(0, air.prechargeKpa),
      normalPrechargeKpa: air.normalPrechargeKpa,
    },
    evidence: {
      airKpa: roundTo(air.prechargeKpa, 0),
      normalKpa: roundTo(air.normalPrechargeKpa, 0),
      share: roundTo(air.ratio),
    },
    causes: causesOf(scene, memory),
  };
}

/** Remembers when the charge was last whole, and since when it has been falling. */
function trackDecline(scene: Scene, memory: AirLostMemory, ratio: number | undefined): void {
  if (ratio === undefined) return;
  if (ratio > 0.94) {
    memory.wholeMs = scene.atMs;
    delete memory.fast;
    delete memory.fallingSinceMs;
  } else memory.fallingSinceMs ??= scene.atMs;
}

function causesOf(scene: Scene, memory: AirLostMemory): Active['causes'] {
  memory.fast ??= memory.wholeMs !== undefined && scene.atMs - memory.wholeMs < MAX_FAST_MS;
  return weighCauses(
    memory.fast
      ? { 'bladder-burst': 0.5, 'tank-air-lost': 0.45 }
      : { 'tank-air-lost': 0.55, 'bladder-burst': 0.4 },
  );
}
