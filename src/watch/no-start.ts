/**
 * Water is called for and no current flows: pressure has stood under cut-in for a whole minute, or the contact calls, and the pump
 * does not run. Cut-in is the lowest at which this switch is known to close, so that a switch that was turned down does not
 * look like a dead pump.
 */
import { companyOf, isLag, ownCutIn, speaksForAll } from './company.ts';
import { fellAtOnce } from './fell-at-once.ts';
import { PSI, lastMinute, numberOf, pumpOf, standingSince, standsNot, usesPressure } from './facts.ts';
import { sayPressure, sayTime, tidy } from './say.ts';
import type { Finding, Memo, MinutePump, MinuteScene, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

/** Under cut-in by the larger of 2 psi and three of its own spreads. */
const UNDER_KPA = 2 * PSI;
const UNDER_SPREADS = 3;
/** Of a drive people know the pressure that it holds: it wakes some 5 psi under it, and starts on the water that is drawn (common practice, no source). */
const DRIVE_UNDER_KPA = 12 * PSI;
/** By 1 psi it is so for twenty minutes. */
const LINGERS_UNDER_KPA = PSI;
const LINGERS_MS = 20 * 60_000;
/**
 * A pump that started by itself at a lower pressure is not told again above that for a week, down to this far under cut-in. One that
 * stays away is: with the first water that is used, or after three hours in which nobody used any.
 */
const OWN_UNDER_KPA = 15 * PSI;
const OWN_LINGERS_MS = 3 * 3_600_000;
const OWN_MS = 7 * 86_400_000;
/** Current must have been heard for this much of the minute: silence is not zero. */
const HEARD_S = 40;
const CALLS_MINUTES = 2;
/** Half an hour with no run ever seen: whoever set it up is still there, and a house draws water meanwhile. */
const NEVER_RAN_S = 1800;

/** What starts late each time is one alarm and not one a start. */
const OFF_DELAY_S = 3600;

export const noStart: Watch = {
  alarm: 'no-start',
  each: 'pump',
  on: ['minute'],
  onDelayS: 60,
  offDelayS: OFF_DELAY_S,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  const minute = lastMinute(scene);
  const pump = minute && pumpOf(scene, minute);
  if (!minute || !pump || pump.heardS < HEARD_S) return undefined;
  if (pump.ranS > 0 || scene.pump.run) {
    noteOwnStart(scene, minute, memo);
    return standsNot(memo);
  }
  if (othersServe(scene, minute)) {
    // It may be another's turn; that this one would start is not shown by that.
    delete memo['sinceMs'];
    delete memo['lingersMs'];
    return undefined;
  }
  if (pump.calls === true) return called(scene, minute, memo);
  if (!usesPressure(scene.pump) || pump.calls === false)
    return pump.calls === false ? standsNot(memo) : undefined;
  return underCutIn(scene, minute, pump, memo);
}

/**
 * Of several pumps on one pressure or store: does another do the work, or speak of what is wrong? One speaks for all where none runs. A
 * lag pump is wanted while the others run and pressure stands under its own cut-in all the same.
 */
function othersServe(scene: Scene, minute: MinuteScene): boolean {
  const company = companyOf(scene);
  if (company.length === 0) return false;
  const busy = company.some((other) => (minute.pumps[other.index]?.ranS ?? 0) > 0);
  if (usesPressure(scene.pump) && isLag(scene)) return !busy;
  return busy || !speaksForAll(scene);
}

function called(scene: Scene, minute: MinuteScene, memo: Memo): Finding | undefined {
  const sinceMs = standingSince(memo, minute.atMs - 60_000);
  const forS = (minute.atMs - sinceMs) / 1000;
  if (forS < CALLS_MINUTES * 60) return undefined;
  const what =
    scene.pump.card.control === 'float'
      ? 'The float'
      : scene.pump.card.control === 'timer'
        ? 'The timer'
        : 'The switch';
  return {
    sinceMs,
    why: `${what} has called for water for ${sayTime(forS)} and no current flows.`,
    evidence: { forS: tidy(forS, 0), calls: 'yes', amps: 0 },
    causes: causesOf(scene, minute),
  };
}

function underCutIn(
  scene: Scene,
  minute: MinuteScene,
  pump: MinutePump,
  memo: Memo,
): Finding | null | undefined {
  const { kpa } = minute;
  const written = ownCutIn(scene, scene.pump);
  if (written === undefined || !kpa) return undefined;
  const cutIn = scene.pump.card.control === 'variable-speed' ? written - DRIVE_UNDER_KPA : written;
  if (kpa.low >= cutIn) {
    delete memo['lingersMs'];
    return standsNot(memo);
  }
  // That is told of the gauge, and says nothing of the pump.
  if (fellAtOnce(scene)) return undefined;
  // Where it came by itself after a wait, the switch may have moved: the wait alone proves nothing then, but its length does.
  const late = isRecent(scene, memo);
  const startsAt = late ? Math.min(cutIn, numberOf(memo, 'ownKpa', cutIn)) : cutIn;
  const scatter = Math.min(UNDER_SPREADS * (scene.pump.baseline?.cutInKpa?.spread ?? 0), 8 * PSI);
  const clearlyUnder = kpa.high < startsAt - Math.max(UNDER_KPA, scatter);
  const lingersForMs = lingering(minute, kpa.high < cutIn - Math.max(LINGERS_UNDER_KPA, scatter), memo);
  if (!clearlyUnder && lingersForMs < (late ? OWN_LINGERS_MS : LINGERS_MS)) return undefined;
  const sinceMs = standingSince(memo, numberOf(memo, 'lingersMs', minute.atMs - 60_000));
  const forS = (minute.atMs - sinceMs) / 1000;
  if (neverRan(scene) && forS < NEVER_RAN_S) return undefined;
  return {
    sinceMs,
    why: `Pressure is ${sayPressure(kpa.last)}, under the cut-in of ${sayPressure(cutIn)}, and no current has flowed for ${sayTime(Math.max(forS, 60))}.`,
    evidence: {
      kpa: tidy(kpa.last, 0),
      cutInKpa: tidy(cutIn, 0),
      forS: tidy(forS, 0),
      amps: tidy(pump.resting?.mean ?? 0),
    },
    causes: causesOf(scene, minute),
  };
}

/** The pump starts of itself after it seemed dead: that is where its switch closes now, or where a late one does. */
function noteOwnStart(scene: Scene, minute: MinuteScene, memo: Memo): void {
  const kpa = scene.pump.run?.cutInKpa ?? minute.kpa?.low;
  const cutIn = ownCutIn(scene, scene.pump);
  if (memo['sinceMs'] === undefined || kpa === undefined || cutIn === undefined) return;
  memo['ownKpa'] = tidy(Math.max(cutIn - OWN_UNDER_KPA, Math.min(kpa, numberOf(memo, 'ownKpa', kpa))), 0);
  memo['ownMs'] = minute.atMs;
}

function isRecent(scene: Scene, memo: Memo): boolean {
  return scene.atMs - numberOf(memo, 'ownMs', -Infinity) < OWN_MS;
}

/** Before its first run only the card says where this switch closes, and the card may be of another one, or in another unit. */
function neverRan({ pump }: Scene): boolean {
  return pump.pinned === undefined && pump.cycles.length === 0;
}

/** A little under cut-in, but for long: pressure that falls slowly does not jump past the switch. */
function lingering(minute: MinuteScene, isUnder: boolean, memo: Memo): number {
  if (!isUnder) {
    delete memo['lingersMs'];
    return 0;
  }
  const sinceMs = numberOf(memo, 'lingersMs', minute.atMs - 60_000);
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
  return weigh({
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
