/**
 * Measured voltage outside the motor's range: 10 % of its plate either way ("Electrical
 * Fundamentals", Water Well Journal, 2024; NEMA MG 1), in the line that is farthest off. What
 * counts is what the motor has while it runs: a supply that is right at rest may sag under load, by
 * a thin wire, a bad joint or the transformer. Between short runs it is the voltage at rest less
 * the sag that was seen. Ten minutes of it, since the start of any large motor dips the supply, and
 * a motor is cooked by hours.
 */
import { MINUTE_MS } from '../../../../shared/units/duration.ts';
import { FORM_EVIDENCE } from '../../../../shared/alarms/form-evidence.ts';
import { median } from '../../baseline/robust.ts';
import { cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import {
  isAfterReset,
  activeSince,
  forgetSince,
  lastMinute,
  pumpInMinute,
  type SinceMemory,
} from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { MinutePump, MinuteScene, Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * 10 % either way, as the head of this file says; a tenth of that must be regained before the alarm
 * goes, so that it does not come and go at the limit (argued, not measured).
 */
const MAX_DEVIATION = 0.1;
const CLEAR_DEVIATION = 0.09;
/** The contract's limit for `now`: so far off, the neutral may be open (common practice). */
const FAR_DEVIATION = 0.2;
/** Farther off from the first minute on it is another system than the card's (common practice). */
const OTHER_SYSTEM_DEVIATION = 0.3;
/** Under this it is no supply at all: `power-lost`. */
const GONE_RATIO = 0.5;
/**
 * Longer than the start of any large motor, and short against the hours that cook a motor (argued,
 * not measured).
 */
const MINUTES = 10;
/** A minute that the pump ran through, but for a reading at either end. */
const MIN_RUNNING_S = 55;
/**
 * Sag from rest to run of so many minutes, at least so many of them: one may hold a neighbor's
 * start.
 */
const SAGS = 5;
const MIN_SAGS = 3;
/** Makers' cable tables hold 5 % from the service to the motor. */
const MAX_SAG = 0.05;

/**
 * A dip is a minute in which the supply fell this far for two readings or more, and came back:
 * contactors let go under 0.85 (common practice, no source). So many in a day are no storm's:
 * loose joints, wires that slap in the wind, a neighbor's welder (argued, no source).
 */
const DIP_RATIO = 0.85;
const MIN_DIPS = 10;

interface VoltageMemory extends SinceMemory {
  /** Dips of the day, and the lowest of them. */
  dipDate?: string;
  dips?: number;
  lowestV?: number;
  /** Volts of each line in the last minute at rest. */
  restV?: number[];
  /** Volts running over volts at rest, the lowest line, newest last. */
  sags: number[];
  wasInRange?: true;
}

export const supplyVoltage: Watch<VoltageMemory> = {
  alarm: 'supply-voltage',
  scope: 'pump',
  triggers: ['minute'],
  initialMemory: () => ({ sags: [] }),
  evaluate,
};

function evaluate(scene: Scene, memory: VoltageMemory): Evaluation {
  const nominal = scene.pump.card.volts;
  if (nominal === undefined) return cannotTell('needs-card-voltage');
  countDip(scene, memory, nominal);
  const found = evaluateMeans(scene, memory, nominal);
  return found.is === 'active' ? found : (dipsFinding(scene, memory, nominal) ?? found);
}

function countDip(scene: Scene, memory: VoltageMemory, nominal: number): void {
  if (memory.dipDate !== scene.well.date) {
    memory.dipDate = scene.well.date;
    delete memory.dips;
    delete memory.lowestV;
  }
  const minute = lastMinute(scene);
  const pump = minute && pumpInMinute(scene, minute);
  // Its own start dips the supply.
  if (!pump?.volts || (pump.ranS > 0 && pump.ranS < MIN_RUNNING_S)) return;
  const lowestV = Math.min(...pump.volts.map((line) => line.low));
  const isBack = pump.volts.every((line) => line.high > DIP_RATIO * nominal);
  if (lowestV >= DIP_RATIO * nominal || !isBack) return;
  memory.dips = (memory.dips ?? 0) + 1;
  memory.lowestV = roundTo(Math.min(memory.lowestV ?? Infinity, lowestV), 1);
}

function dipsFinding(
  scene: Scene,
  { dips = 0, lowestV = 0 }: VoltageMemory,
  nominal: number,
): Active | undefined {
  if (dips < MIN_DIPS) return undefined;
  return {
    is: 'active',
    sinceMs: scene.well.dayStartedMs,
    priority: 'soon',
    reason: 'voltage-dips',
    figures: { dips, lowestV, ratedV: nominal },
    evidence: { dips, volts: lowestV, nominalVolts: nominal },
    causes: weighCauses({ 'supply-voltage': 0.8, generator: 0.15, 'bad-card': 0.05 }),
  };
}

function evaluateMeans(scene: Scene, memory: VoltageMemory, nominal: number): Evaluation {
  const known = scene.well.minutes.filter(
    (minute) =>
      isAfterReset(scene, minute.atMs - MINUTE_MS) &&
      lineVolts(minute.pumps[scene.pump.index], nominal) !== undefined,
  );
  if (known.length === 0) return cannotTell('needs-voltage');
  noteSag(memory, scene.well.minutes[scene.well.minutes.length - 1]?.pumps[scene.pump.index], nominal);
  const observed = observe(scene, memory, known, nominal);
  if (observed === undefined) return cannotTell('too-few-readings');
  const { volts, fromMs } = observed;
  const deviation = volts / nominal - 1;
  if (Math.abs(deviation) < MAX_DEVIATION) memory.wasInRange = true;
  if (Math.abs(deviation) < CLEAR_DEVIATION || volts < GONE_RATIO * nominal) return forgetSince(memory);
  if (Math.abs(deviation) < MAX_DEVIATION) return cannotTell('near-limit');
  return finding(memory, { volts, nominal, sinceMs: activeSince(memory, fromMs) });
}

/**
 * Volts of each line. Of a minute in which the supply was gone for a while the mean says nothing of
 * what the motor had.
 */
function lineVolts(pump: MinutePump | undefined, nominal: number): number[] | undefined {
  const lines = pump?.volts;
  if (!lines || lines.every((line) => line.low < GONE_RATIO * nominal)) return undefined;
  return lines.map((line) => line.mean);
}

function noteSag(memory: VoltageMemory, pump: MinutePump | undefined, nominal: number): void {
  const lines = lineVolts(pump, nominal);
  if (!pump || !lines) return;
  if (pump.ranS === 0) memory.restV = lines.map((volts) => roundTo(volts, 1));
  const { restV } = memory;
  if (pump.ranS < MIN_RUNNING_S || restV?.length !== lines.length) return;
  const lowest = Math.min(...lines.map((volts, line) => volts / restV[line]!));
  memory.sags = [...memory.sags, roundTo(lowest, 4)].slice(-SAGS);
}

/** What the motor has while it runs, in the line that is farthest off. */
function observe(
  scene: Scene,
  memory: VoltageMemory,
  known: readonly MinuteScene[],
  nominal: number,
): { volts: number; fromMs: number } | undefined {
  const ranS = (minute: MinuteScene): number => minute.pumps[scene.pump.index]!.ranS;
  const running = known.filter((minute) => ranS(minute) >= MIN_RUNNING_S).slice(-MINUTES);
  const isRunning = running.length === MINUTES;
  const minutes = isRunning ? running : known.filter((minute) => ranS(minute) === 0).slice(-MINUTES);
  if (minutes.length < MINUTES) return undefined;
  const lines = minutes.map((minute) => lineVolts(minute.pumps[scene.pump.index], nominal)!);
  const means = lines[0]!.map(
    (_, line) => lines.reduce((sum, volts) => sum + (volts[line] ?? nominal), 0) / MINUTES,
  );
  const [worst] = means.toSorted((a, b) => Math.abs(b - nominal) - Math.abs(a - nominal));
  return {
    volts: worst! * (isRunning ? 1 : sagRatio(memory)),
    fromMs: minutes[0]!.atMs - MINUTE_MS,
  };
}

function sagRatio({ sags }: VoltageMemory): number {
  return sags.length < MIN_SAGS ? 1 : Math.min(1, median(sags)!);
}

function finding(
  memory: VoltageMemory,
  { volts, nominal, sinceMs }: { volts: number; nominal: number; sinceMs: number },
): Active {
  const deviation = volts / nominal - 1;
  const off = Math.abs(deviation);
  const isOtherSystem = off > OTHER_SYSTEM_DEVIATION && memory.wasInRange !== true;
  const isFarOff = off > FAR_DEVIATION && !isOtherSystem;
  const sag = 1 - sagRatio(memory);
  const sags = deviation < 0 && sag > MAX_SAG;
  return {
    is: 'active',
    sinceMs,
    priority: isFarOff ? 'now' : 'soon',
    reason: 'voltage-out-of-range',
    figures: { supplyV: volts, ratedV: nominal, deviation, ...(sags && { sag }) },
    evidence: {
      volts: roundTo(volts, 1),
      nominalVolts: nominal,
      share: roundTo(deviation, 3),
      ...(sags && { sagShare: roundTo(sag, 3) }),
      ...(isFarOff && FORM_EVIDENCE['voltage-far-off']),
    },
    causes: weighCauses({
      'supply-voltage': 0.7,
      // A generator does not sag by the wire alone, and holds its volts up by itself.
      generator: deviation > 0 ? 0.3 : 0.2,
      'bad-card': isOtherSystem ? 0.6 : 0.05,
    }),
  };
}
