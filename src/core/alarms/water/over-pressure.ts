/**
 * Pressure where the switch should long have opened: more than 10 psi over cut-out, or within 5 psi
 * of the relief valve, for more than some seconds. With the pump running its contacts are closed
 * and nothing but the relief valve limits the pressure; at rest it is water that warms where the
 * pressure tank cannot take up what it swells, or a switch set too high.
 */
import type { Reason } from '../../../../shared/text/en/reasons/reasons.ts';
import { MINUTE_MS } from '../../../../shared/units/duration.ts';
import { cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { heatedKpa } from '../../hydraulics/heating.ts';
import { tankOf } from '../../hydraulics/tank.ts';
import { peersOf, reportsPressure } from '../pump-peers.ts';
import {
  KPA_PER_PSI,
  highestCutOutKpa,
  lastMinute,
  activeSince,
  forgetSince,
  stayedOver,
  usesPressure,
  type SinceMemory,
} from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * 10 psi is five times what a switch repeats to; 5 psi under its setting a relief valve may begin
 * to weep (common practice, no source).
 */
const OVER_CUT_OUT_KPA = 10 * KPA_PER_PSI;
const UNDER_RELIEF_KPA = 5 * KPA_PER_PSI;
/**
 * A relief valve nearer to cut-out than this cannot be watched by its own pressure: each fill would
 * come near it. But what has risen by as much since the pump stopped is no fill.
 */
const MIN_RELIEF_MARGIN_KPA = 2 * KPA_PER_PSI;
const MIN_REST_RISE_KPA = 2 * KPA_PER_PSI;
/**
 * Pressure must fall this far under the limit before the alarm goes: 2 % of a 100 psi span
 * (starting value of ANSI/ISA-18.2, from memory).
 */
const DEADBAND_KPA = 2 * KPA_PER_PSI;

/** Runs after which the switch's own points are known (../scene-queries.ts). */
const MIN_RUNS = 3;
/**
 * Until then a run may be a fill to a cut-out that the card does not know: ten minutes, and no
 * switch of a house is set over 90 psi (common practice).
 */
const MAX_FIRST_FILL_S = 600;
const MAX_SWITCH_KPA = 90 * KPA_PER_PSI;

/**
 * The largest heater that is common in a house, L: 80 gal (common practice, no source). A smaller
 * one raises the pressure less.
 */
const HEATER_L = 80 * 3.785;

interface OverPressureMemory extends SinceMemory {
  /** A pump has run since pressure went over the limit. */
  ran?: boolean;
}

export const overPressure: Watch<OverPressureMemory> = {
  alarm: 'over-pressure',
  scope: 'pump',
  triggers: ['minute'],
  initialMemory: () => ({}),
  evaluate,
};

function evaluate(scene: Scene, memory: OverPressureMemory): Evaluation {
  // Into a store pressure is what hose and height make it: no switch limits it.
  const cutOut = usesPressure(scene.pump) ? highestCutOutKpa(scene) : undefined;
  const minute = lastMinute(scene);
  if (!minute) return cannotTell('too-few-readings');
  if (!minute.kpa) return cannotTell('needs-pressure');
  if (!reportsPressure(scene)) return cannotTell('other-pump');
  const limit = limitKpaOf(scene, cutOut);
  if (limit === undefined)
    return cannotTell(usesPressure(scene.pump) ? 'needs-card-switch' : 'not-this-control');
  const isActive = memory.sinceMs !== undefined;
  if (!stayedOver(minute.kpa, isActive ? limit - DEADBAND_KPA : limit)) {
    delete memory.ran;
    return forgetSince(memory);
  }
  const sinceMs = activeSince(memory, minute.atMs - MINUTE_MS);
  // What a running pump raised stands there after it stopped at last: it is still the running
  // pump's pressure.
  const running = [scene.pump, ...peersOf(scene)].some(
    (pump) => pump.run !== undefined && (minute.pumps[pump.index]?.ranS ?? 0) > 0,
  );
  // With nothing learnt yet a switch that opens higher than its card says is more likely a wrong
  // card: its next runs tell.
  if (!scene.pump.pinned && scene.pump.cycles.length < MIN_RUNS) {
    if (!running) return cannotTell('too-few-runs');
    // A run that ends soon was a fill to another cut-out than the card's.
    if (minute.kpa.mean < MAX_SWITCH_KPA && longestRunningS(scene) < MAX_FIRST_FILL_S)
      return cannotTell('not-long-enough');
  }
  if (running) memory.ran = true;
  const driven = scene.pump.card.control === 'variable-speed';
  const overPlate = overPlateReason(scene, minute.kpa.mean, running);
  return memory.ran === true
    ? { ...runningFinding(minute.kpa.mean, cutOut, limit, { sinceMs, running, driven }), ...overPlate }
    : { ...restFinding(scene, minute.kpa.mean, cutOut, limit, sinceMs), ...overPlate };
}

function overPlateReason(scene: Scene, kpa: number, isRunning: boolean): Reason | undefined {
  const maxKpa = scene.well.card.tank?.maxPressureKpa;
  return maxKpa !== undefined && kpa > maxKpa
    ? { reason: 'over-tank-rating', figures: { kpa, maxKpa, isRunning } }
    : undefined;
}

/** How long the longest of the runs that go on now has run, s. */
function longestRunningS(scene: Scene): number {
  return Math.max(0, ...[scene.pump, ...peersOf(scene)].map((pump) => pump.run?.ranS ?? 0));
}

/** The plate of the tank limits whatever switch and relief valve do. */
function limitKpaOf(scene: Scene, cutOut: number | undefined): number | undefined {
  const lowest = Math.min(
    scene.well.card.tank?.maxPressureKpa ?? Infinity,
    controlLimitKpa(scene, cutOut) ?? Infinity,
  );
  return lowest === Infinity ? undefined : lowest;
}

function controlLimitKpa(scene: Scene, cutOut: number | undefined): number | undefined {
  const relief = scene.well.card.reliefKpa;
  const byRelief = relief === undefined ? undefined : relief - UNDER_RELIEF_KPA;
  if (cutOut === undefined) return byRelief;
  const bySwitch = cutOut + OVER_CUT_OUT_KPA;
  if (byRelief === undefined) return bySwitch;
  return byRelief > cutOut + MIN_RELIEF_MARGIN_KPA || roseAtRest(scene)
    ? Math.min(byRelief, bySwitch)
    : bySwitch;
}

/** By the means of whole minutes in which no pump ran. */
function roseAtRest({ well, pump }: Scene): boolean {
  let last: number | undefined;
  let lowest = Infinity;
  for (let at = well.minutes.length - 1; at >= 0; at--) {
    const { atMs, kpa, pumps } = well.minutes[at]!;
    if (atMs - MINUTE_MS < (pump.restSinceMs ?? Infinity) || pumps.some(({ ranS }) => ranS > 0)) break;
    if (!kpa) continue;
    last ??= kpa.mean;
    lowest = Math.min(lowest, kpa.mean);
  }
  return last !== undefined && last > lowest + MIN_REST_RISE_KPA;
}

function runningFinding(
  kpa: number,
  cutOut: number | undefined,
  limit: number,
  { sinceMs, running, driven }: { sinceMs: number; running: boolean; driven: boolean },
): Active {
  return {
    is: 'active',
    sinceMs,
    priority: running ? 'now' : 'soon',
    ...runningReason(kpa, cutOut, limit, { isRunning: running, driven }),
    evidence: pressureEvidence(kpa, cutOut, limit, running),
    // The drive's own sensor is its switch: out of set, or its line blocked.
    causes: driven
      ? weighCauses({ 'switch-out-of-set': 0.45, 'blocked-nipple': 0.3, 'transducer-fault': 0.25 })
      : weighCauses({ 'switch-contacts-stuck': 0.75, 'blocked-nipple': 0.15, 'switch-out-of-set': 0.1 }),
  };
}

function runningReason(
  kpa: number,
  cutOutKpa: number | undefined,
  limit: number,
  { isRunning, driven }: { isRunning: boolean; driven: boolean },
): Reason {
  // Without a cut-out the limit is the relief valve's.
  if (cutOutKpa === undefined)
    return { reason: 'run-near-relief', figures: { kpa, reliefKpa: limit + UNDER_RELIEF_KPA, isRunning } };
  return driven
    ? { reason: 'run-over-drive-pressure', figures: { kpa, driveKpa: cutOutKpa, isRunning } }
    : { reason: 'switch-did-not-open', figures: { kpa, cutOutKpa, isRunning } };
}

function restFinding(
  scene: Scene,
  kpa: number,
  cutOut: number | undefined,
  limit: number,
  sinceMs: number,
): Active {
  const last = scene.pump.cycles[scene.pump.cycles.length - 1];
  const bySwitch = last?.cutOutKpa !== undefined && last.cutOutKpa > limit - 2 * DEADBAND_KPA;
  const heated = bySwitch ? undefined : heatedFrom(scene, Math.max(cutOut ?? 0, last?.cutOutKpa ?? 0));
  const byHeat = heated !== undefined && kpa <= heated.kpa;
  const over = cutOut !== undefined && kpa > cutOut && { cutOutKpa: cutOut };
  return {
    is: 'active',
    sinceMs,
    priority: 'soon',
    ...(bySwitch
      ? { reason: 'switch-opened-high', figures: { endedKpa: last.cutOutKpa ?? kpa, ...over } }
      : {
          reason: 'pressure-high-at-rest',
          figures: { kpa, ...over, ...(heated && !byHeat && { heaterRiseKpa: heated.riseKpa }) },
        }),
    evidence: {
      ...pressureEvidence(kpa, cutOut, limit, false),
      ...(heated && !byHeat && { heaterRiseKpa: roundTo(heated.riseKpa, 0) }),
    },
    causes: bySwitch
      ? weighCauses({ 'switch-out-of-set': 0.45, 'transducer-fault': 0.3, 'switch-contacts-stuck': 0.25 })
      : weighCauses(byHeat ? BY_HEAT : NOT_BY_HEAT[scene.well.card.tank?.kind ?? 'captive-air']),
  };
}

/**
 * How far a heater brings the pressure from there, with the tank on the card; undefined where that
 * tank or the pressure (0) is not known.
 */
function heatedFrom(
  { well: { card } }: Scene,
  fromKpa: number,
): { kpa: number; riseKpa: number } | undefined {
  const tank = tankOf(card.tank, card.altitudeM);
  if (!tank || fromKpa === 0) return undefined;
  const kpa = heatedKpa(tank, fromKpa, HEATER_L);
  return { kpa, riseKpa: kpa - fromKpa };
}

const BY_HEAT = { 'heat-expansion': 0.6, 'transducer-fault': 0.2, 'switch-contacts-stuck': 0.2 };
/**
 * More than heated water does behind a sound tank, or a tank that nobody knows: it has no air, or a
 * valve or check valve shuts it off from the heater. A plain tank has no bladder.
 */
const NO_CUSHION = {
  'closed-valve': 0.2,
  'transducer-fault': 0.15,
  'switch-contacts-stuck': 0.1,
  'heat-expansion': 0.05,
};
const NOT_BY_HEAT = {
  'captive-air': { 'tank-air-lost': 0.25, 'bladder-burst': 0.25, ...NO_CUSHION },
  plain: { 'tank-air-lost': 0.5, ...NO_CUSHION },
};

function pressureEvidence(
  kpa: number,
  cutOut: number | undefined,
  limit: number,
  running: boolean,
): Active['evidence'] {
  return {
    kpa: roundTo(kpa, 0),
    limitKpa: roundTo(limit, 0),
    ...(cutOut !== undefined && { cutOutKpa: roundTo(cutOut, 0) }),
    pump: running ? 'running' : 'resting',
  };
}
