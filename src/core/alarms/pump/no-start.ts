/**
 * Water is called for and no current flows: pressure has stood under cut-in for a whole minute, or
 * the contact calls, and the pump does not run. Cut-in is the lowest at which this switch is known
 * to close, so that a switch that was turned down does not look like a dead pump.
 */
import { DAY_MS, HOUR_MS, MINUTE_MS } from '../../../../shared/units/duration.ts';
import { isProtectorWaiting, PROTECTOR_MARGIN_S } from './ended-by-protector.ts';
import { peersOf, isLagPump, ownCutIn, reportsForGroup } from '../pump-peers.ts';
import { cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { detectGaugeDrop } from '../sensing/gauge-drop.ts';
import {
  KPA_PER_PSI,
  lastMinute,
  pumpInMinute,
  activeSince,
  forgetSince,
  usesPressure,
  type SinceMemory,
} from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { MinutePump, MinuteScene, Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/** Under cut-in by the larger of 2 psi and three of its own spreads. */
const MIN_UNDER_KPA = 2 * KPA_PER_PSI;
const UNDER_SPREADS = 3;
/**
 * Of a drive people know the pressure that it holds: it wakes some 5 psi under it, and starts on
 * the water that is drawn (common practice, no source).
 */
const DRIVE_UNDER_KPA = 12 * KPA_PER_PSI;
/** By 1 psi it is so for twenty minutes. */
const LINGER_UNDER_KPA = KPA_PER_PSI;
const MIN_LINGER_MS = 20 * MINUTE_MS;
/**
 * A pump that started by itself at a lower pressure is not told again above that for a week, down
 * to this far under cut-in. One that stays away is: with the first water that is used, or after
 * three hours in which nobody used any.
 */
const LATE_START_MAX_UNDER_KPA = 15 * KPA_PER_PSI;
const LATE_START_LINGER_MS = 3 * HOUR_MS;
const LATE_START_MEMORY_MS = 7 * DAY_MS;
/** Current must have been heard for this much of the minute: silence is not zero. */
const MIN_HEARD_S = 40;
const MIN_CALL_MINUTES = 2;
/**
 * Half an hour with no run ever seen: whoever set it up is still there, and a house draws water
 * meanwhile.
 */
const MIN_NEVER_RAN_S = 1800;

interface NoStartMemory extends SinceMemory {
  /** Since when pressure has been a little under cut-in. */
  lingersMs?: number;
  /** The pressure at which the pump last started late by itself, kPa, and when. */
  ownKpa?: number;
  ownMs?: number;
}

export const noStart: Watch<NoStartMemory> = {
  alarm: 'no-start',
  scope: 'pump',
  triggers: ['minute'],
  initialMemory: () => ({}),
  evaluate,
};

function evaluate(scene: Scene, memory: NoStartMemory): Evaluation {
  const minute = lastMinute(scene);
  const pump = minute && pumpInMinute(scene, minute);
  if (!minute || !pump) return cannotTell('too-few-readings');
  if (pump.heardS < MIN_HEARD_S) return cannotTell(pump.heardS > 0 ? 'too-few-readings' : 'needs-current');
  if (pump.ranS > 0 || scene.pump.run) {
    recordLateStart(scene, minute, memory);
    return forgetSince(memory);
  }
  if (othersServe(scene, minute)) {
    // It may be another's turn; that this one would start is not shown by that.
    forgetSince(memory);
    delete memory.lingersMs;
    return cannotTell('other-pump');
  }
  if (isProtectorWaiting(scene.pump, scene.atMs)) return cannotTell('protector-waits');
  if (pump.callsForWater === true) return evaluateCall(scene, minute, memory);
  if (pump.callsForWater === false) return forgetSince(memory);
  if (!usesPressure(scene.pump)) return cannotTell('needs-contact');
  return evaluatePressure(scene, minute, pump, memory);
}

/**
 * Of several pumps on one pressure or store: does another do the work, or speak of what is wrong?
 * One speaks for all where none runs. A lag pump is wanted while the others run and pressure stands
 * under its own cut-in all the same.
 */
function othersServe(scene: Scene, minute: MinuteScene): boolean {
  const company = peersOf(scene);
  if (company.length === 0) return false;
  const busy = company.some((other) => (minute.pumps[other.index]?.ranS ?? 0) > 0);
  if (usesPressure(scene.pump) && isLagPump(scene)) return !busy;
  return busy || !reportsForGroup(scene);
}

function evaluateCall(scene: Scene, minute: MinuteScene, memory: NoStartMemory): Evaluation {
  const sinceMs = activeSince(memory, minute.atMs - MINUTE_MS);
  const forS = (minute.atMs - sinceMs) / 1000;
  if (forS < MIN_CALL_MINUTES * 60) return cannotTell('not-long-enough');
  const { control } = scene.pump.card;
  return {
    is: 'active',
    sinceMs,
    reason: 'called-for-water-no-current',
    figures: { caller: control === 'float' || control === 'timer' ? control : 'switch', forS },
    evidence: { forS: roundTo(forS, 0), calls: 'yes', amps: 0 },
    causes: causesOf(scene, minute),
  };
}

function evaluatePressure(
  scene: Scene,
  minute: MinuteScene,
  pump: MinutePump,
  memory: NoStartMemory,
): Evaluation {
  const { kpa } = minute;
  const ownCutInKpa = ownCutIn(scene, scene.pump);
  if (!kpa) return cannotTell('needs-pressure');
  if (ownCutInKpa === undefined) return cannotTell('needs-card-switch');
  const cutIn = scene.pump.card.control === 'variable-speed' ? ownCutInKpa - DRIVE_UNDER_KPA : ownCutInKpa;
  if (kpa.low >= cutIn) {
    delete memory.lingersMs;
    return forgetSince(memory);
  }
  // That is told of the gauge, and says nothing of the pump.
  if (detectGaugeDrop(scene)) return cannotTell('sensor-in-doubt');
  // Where it came by itself after a wait, the switch may have moved: the wait alone proves nothing
  // then, but its length does.
  const late = startedLateRecently(scene, memory);
  const startsAt = late ? Math.min(cutIn, memory.ownKpa ?? cutIn) : cutIn;
  const scatter = Math.min(UNDER_SPREADS * (scene.pump.baseline?.cutInKpa?.spread ?? 0), 8 * KPA_PER_PSI);
  const clearlyUnder = kpa.high < startsAt - Math.max(MIN_UNDER_KPA, scatter);
  const lingersForMs = lingeringMs(minute, kpa.high < cutIn - Math.max(LINGER_UNDER_KPA, scatter), memory);
  if (!clearlyUnder && lingersForMs < (late ? LATE_START_LINGER_MS : MIN_LINGER_MS))
    return cannotTell(memory.lingersMs === undefined ? 'near-limit' : 'not-long-enough');
  const sinceMs = activeSince(memory, memory.lingersMs ?? minute.atMs - MINUTE_MS);
  const forS = (minute.atMs - sinceMs) / 1000;
  if (neverRan(scene) && forS < MIN_NEVER_RAN_S) return cannotTell('not-long-enough');
  return {
    is: 'active',
    sinceMs,
    reason: 'under-cut-in-no-current',
    figures: { kpa: kpa.last, cutInKpa: cutIn, forS: Math.max(forS, 60) },
    evidence: {
      kpa: roundTo(kpa.last, 0),
      cutInKpa: roundTo(cutIn, 0),
      forS: roundTo(forS, 0),
      amps: roundTo(pump.resting?.mean ?? 0),
    },
    causes: causesOf(scene, minute),
  };
}

/**
 * The pump starts of itself after it seemed dead: that is where its switch closes now, or where a
 * late one does.
 */
function recordLateStart(scene: Scene, minute: MinuteScene, memory: NoStartMemory): void {
  const kpa = scene.pump.run?.cutInKpa ?? minute.kpa?.low;
  const cutIn = ownCutIn(scene, scene.pump);
  if (memory.sinceMs === undefined || kpa === undefined || cutIn === undefined) return;
  memory.ownKpa = roundTo(Math.max(cutIn - LATE_START_MAX_UNDER_KPA, Math.min(kpa, memory.ownKpa ?? kpa)), 0);
  memory.ownMs = minute.atMs;
}

function startedLateRecently(scene: Scene, memory: NoStartMemory): boolean {
  return scene.atMs - (memory.ownMs ?? -Infinity) < LATE_START_MEMORY_MS;
}

/**
 * Before its first run only the card says where this switch closes, and the card may be of another
 * one, or in another unit.
 */
function neverRan({ pump }: Scene): boolean {
  return pump.pinned === undefined && pump.cycles.length === 0;
}

/**
 * A little under cut-in, but for long: pressure that falls slowly does not jump past the switch.
 */
function lingeringMs(minute: MinuteScene, isUnder: boolean, memory: NoStartMemory): number {
  if (!isUnder) {
    delete memory.lingersMs;
    return 0;
  }
  memory.lingersMs ??= minute.atMs - MINUTE_MS;
  return minute.atMs - memory.lingersMs;
}

function causesOf(scene: Scene, minute: MinuteScene): Active['causes'] {
  const { card } = scene.well;
  const volts = minute.pumps[scene.pump.index]?.volts?.[0];
  const powered = volts !== undefined && volts.mean > 0.8 * (scene.pump.card.volts ?? 100);
  const lowCutOff = card.switch.lowCutOffKpa;
  const lockedOut = lowCutOff !== undefined && minute.kpa !== undefined && minute.kpa.mean < lowCutOff;
  const last = scene.pump.cycles[scene.pump.cycles.length - 1];
  const waits = scene.pump.card.protectorRestartS;
  const waiting =
    waits !== undefined &&
    last !== undefined &&
    scene.atMs - last.stoppedMs < (waits + PROTECTOR_MARGIN_S) * 1000;
  const freezing = (minute.temperatureC?.mean ?? 20) < 1;
  const called = minute.pumps[scene.pump.index]?.callsForWater === true;
  return weighCauses({
    'low-pressure-cut-off': lockedOut ? 0.45 : 0.02,
    'protector-waiting': waiting ? 0.6 : 0.03,
    frozen: freezing ? 0.4 : 0,
    'power-lost': powered ? 0 : 0.3,
    'breaker-open': powered ? 0 : 0.3,
    'overload-tripping': powered ? 0.35 : 0.12,
    'failing-motor': powered ? 0.25 : 0.1,
    'switch-out-of-set': powered ? 0.1 : 0.06,
    // "Defective pressure switch" is third after power and fuses (National Driller 86911); a
    // contact that calls has closed.
    'switch-contacts-open': called ? 0 : powered ? 0.4 : 0.08,
    'blocked-nipple': called ? 0 : powered ? 0.1 : 0.03,
    'broken-wire': powered ? 0.2 : 0.05,
    'ground-fault': powered ? 0 : 0.05,
    'clamp-off': 0.04,
  });
}
