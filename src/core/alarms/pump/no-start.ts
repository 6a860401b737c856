/**
 * Water is called for and no current flows: pressure has stood under cut-in for a whole minute, or the contact calls, and the pump
 * does not run. Cut-in is the lowest at which this switch is known to close, so that a switch that was turned down does not
 * look like a dead pump.
 */
import { DAY_MS, HOUR_MS, HOUR_S, MINUTE_MS } from '../../../../shared/units/duration.ts';
import { peersOf, isLagPump, ownCutIn, reportsForGroup } from '../pump-peers.ts';
import { detectGaugeDrop } from '../sensing/gauge-drop.ts';
import {
  KPA_PER_PSI,
  lastMinute,
  memoryNumber,
  pumpInMinute,
  activeSince,
  clearActive,
  usesPressure,
} from '../scene-queries.ts';
import { formatPressure, formatDuration, roundTo } from '../format.ts';
import type { Finding, WatchMemory, MinutePump, MinuteScene, Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/** Under cut-in by the larger of 2 psi and three of its own spreads. */
const MIN_UNDER_KPA = 2 * KPA_PER_PSI;
const UNDER_SPREADS = 3;
/** Of a drive people know the pressure that it holds: it wakes some 5 psi under it, and starts on the water that is drawn (common practice, no source). */
const DRIVE_UNDER_KPA = 12 * KPA_PER_PSI;
/** By 1 psi it is so for twenty minutes. */
const LINGER_UNDER_KPA = KPA_PER_PSI;
const MIN_LINGER_MS = 20 * MINUTE_MS;
/**
 * A pump that started by itself at a lower pressure is not told again above that for a week, down to this far under cut-in. One that
 * stays away is: with the first water that is used, or after three hours in which nobody used any.
 */
const LATE_START_MAX_UNDER_KPA = 15 * KPA_PER_PSI;
const LATE_START_LINGER_MS = 3 * HOUR_MS;
const LATE_START_MEMORY_MS = 7 * DAY_MS;
/** Current must have been heard for this much of the minute: silence is not zero. */
const MIN_HEARD_S = 40;
const MIN_CALL_MINUTES = 2;
/** Half an hour with no run ever seen: whoever set it up is still there, and a house draws water meanwhile. */
const MIN_NEVER_RAN_S = 1800;

/** What starts late each time is one alarm and not one a start. */
const OFF_DELAY_S = HOUR_S;

export const noStart: Watch = {
  alarm: 'no-start',
  scope: 'pump',
  triggers: ['minute'],
  onDelayS: 60,
  offDelayS: OFF_DELAY_S,
  evaluate,
};

function evaluate(scene: Scene, memo: WatchMemory): Finding | null | undefined {
  const minute = lastMinute(scene);
  const pump = minute && pumpInMinute(scene, minute);
  if (!minute || !pump || pump.heardS < MIN_HEARD_S) return undefined;
  if (pump.ranS > 0 || scene.pump.run) {
    recordLateStart(scene, minute, memo);
    return clearActive(memo);
  }
  if (othersServe(scene, minute)) {
    // It may be another's turn; that this one would start is not shown by that.
    delete memo['sinceMs'];
    delete memo['lingersMs'];
    return undefined;
  }
  if (pump.callsForWater === true) return callFinding(scene, minute, memo);
  if (!usesPressure(scene.pump) || pump.callsForWater === false)
    return pump.callsForWater === false ? clearActive(memo) : undefined;
  return underCutInFinding(scene, minute, pump, memo);
}

/**
 * Of several pumps on one pressure or store: does another do the work, or speak of what is wrong? One speaks for all where none runs. A
 * lag pump is wanted while the others run and pressure stands under its own cut-in all the same.
 */
function othersServe(scene: Scene, minute: MinuteScene): boolean {
  const company = peersOf(scene);
  if (company.length === 0) return false;
  const busy = company.some((other) => (minute.pumps[other.index]?.ranS ?? 0) > 0);
  if (usesPressure(scene.pump) && isLagPump(scene)) return !busy;
  return busy || !reportsForGroup(scene);
}

function callFinding(scene: Scene, minute: MinuteScene, memo: WatchMemory): Finding | undefined {
  const sinceMs = activeSince(memo, minute.atMs - MINUTE_MS);
  const forS = (minute.atMs - sinceMs) / 1000;
  if (forS < MIN_CALL_MINUTES * 60) return undefined;
  const what =
    scene.pump.card.control === 'float'
      ? 'The float'
      : scene.pump.card.control === 'timer'
        ? 'The timer'
        : 'The switch';
  return {
    sinceMs,
    why: `${what} has called for water for ${formatDuration(forS)} and no current flows.`,
    evidence: { forS: roundTo(forS, 0), calls: 'yes', amps: 0 },
    causes: causesOf(scene, minute),
  };
}

function underCutInFinding(
  scene: Scene,
  minute: MinuteScene,
  pump: MinutePump,
  memo: WatchMemory,
): Finding | null | undefined {
  const { kpa } = minute;
  const ownCutInKpa = ownCutIn(scene, scene.pump);
  if (ownCutInKpa === undefined || !kpa) return undefined;
  const cutIn = scene.pump.card.control === 'variable-speed' ? ownCutInKpa - DRIVE_UNDER_KPA : ownCutInKpa;
  if (kpa.low >= cutIn) {
    delete memo['lingersMs'];
    return clearActive(memo);
  }
  // That is told of the gauge, and says nothing of the pump.
  if (detectGaugeDrop(scene)) return undefined;
  // Where it came by itself after a wait, the switch may have moved: the wait alone proves nothing then, but its length does.
  const late = startedLateRecently(scene, memo);
  const startsAt = late ? Math.min(cutIn, memoryNumber(memo, 'ownKpa', cutIn)) : cutIn;
  const scatter = Math.min(UNDER_SPREADS * (scene.pump.baseline?.cutInKpa?.spread ?? 0), 8 * KPA_PER_PSI);
  const clearlyUnder = kpa.high < startsAt - Math.max(MIN_UNDER_KPA, scatter);
  const lingersForMs = lingeringMs(minute, kpa.high < cutIn - Math.max(LINGER_UNDER_KPA, scatter), memo);
  if (!clearlyUnder && lingersForMs < (late ? LATE_START_LINGER_MS : MIN_LINGER_MS)) return undefined;
  const sinceMs = activeSince(memo, memoryNumber(memo, 'lingersMs', minute.atMs - MINUTE_MS));
  const forS = (minute.atMs - sinceMs) / 1000;
  if (neverRan(scene) && forS < MIN_NEVER_RAN_S) return undefined;
  return {
    sinceMs,
    why: `Pressure is ${formatPressure(kpa.last)}, under the cut-in of ${formatPressure(cutIn)}, and no current has flowed for ${formatDuration(Math.max(forS, 60))}.`,
    evidence: {
      kpa: roundTo(kpa.last, 0),
      cutInKpa: roundTo(cutIn, 0),
      forS: roundTo(forS, 0),
      amps: roundTo(pump.resting?.mean ?? 0),
    },
    causes: causesOf(scene, minute),
  };
}

/** The pump starts of itself after it seemed dead: that is where its switch closes now, or where a late one does. */
function recordLateStart(scene: Scene, minute: MinuteScene, memo: WatchMemory): void {
  const kpa = scene.pump.run?.cutInKpa ?? minute.kpa?.low;
  const cutIn = ownCutIn(scene, scene.pump);
  if (memo['sinceMs'] === undefined || kpa === undefined || cutIn === undefined) return;
  memo['ownKpa'] = roundTo(
    Math.max(cutIn - LATE_START_MAX_UNDER_KPA, Math.min(kpa, memoryNumber(memo, 'ownKpa', kpa))),
    0,
  );
  memo['ownMs'] = minute.atMs;
}

function startedLateRecently(scene: Scene, memo: WatchMemory): boolean {
  return scene.atMs - memoryNumber(memo, 'ownMs', -Infinity) < LATE_START_MEMORY_MS;
}

/** Before its first run only the card says where this switch closes, and the card may be of another one, or in another unit. */
function neverRan({ pump }: Scene): boolean {
  return pump.pinned === undefined && pump.cycles.length === 0;
}

/** A little under cut-in, but for long: pressure that falls slowly does not jump past the switch. */
function lingeringMs(minute: MinuteScene, isUnder: boolean, memo: WatchMemory): number {
  if (!isUnder) {
    delete memo['lingersMs'];
    return 0;
  }
  const sinceMs = memoryNumber(memo, 'lingersMs', minute.atMs - MINUTE_MS);
  memo['lingersMs'] = sinceMs;
  return minute.atMs - sinceMs;
}

function causesOf(scene: Scene, minute: MinuteScene): Finding['causes'] {
  const { card } = scene.well;
  const volts = minute.pumps[scene.pump.index]?.volts?.[0];
  const powered = volts !== undefined && volts.mean > 0.8 * (scene.pump.card.volts ?? 100);
  const lowCutOff = card.switch.lowCutOffKpa;
  const lockedOut = lowCutOff !== undefined && minute.kpa !== undefined && minute.kpa.mean < lowCutOff;
  const last = scene.pump.cycles[scene.pump.cycles.length - 1];
  const waits = scene.pump.card.protectorRestartS;
  const waiting =
    waits !== undefined && last !== undefined && scene.atMs - last.stoppedMs < (waits + 300) * 1000;
  const freezing = (minute.temperatureC?.mean ?? 20) < 1;
  return weighCauses({
    'low-pressure-cut-off': lockedOut ? 0.45 : 0.02,
    'protector-waiting': waiting ? 0.6 : 0.03,
    frozen: freezing ? 0.4 : 0,
    'power-lost': powered ? 0 : 0.3,
    'breaker-open': powered ? 0 : 0.3,
    'overload-tripping': powered ? 0.35 : 0.12,
    'failing-motor': powered ? 0.25 : 0.1,
    'switch-out-of-set': powered ? 0.2 : 0.06,
    'clamp-off': 0.04,
  });
}
