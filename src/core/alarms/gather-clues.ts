/**
 * What is known of a well beside what a watch looks at: the figures that speak for or against
 * causes (shared/text/en/causes/clues.ts), as far as they are measured or on the card. Gathered
 * only where something was found.
 */
import type { Evidence } from '../../../shared/api/events.ts';
import { atmosphericKpa } from '../../../shared/units/altitude.ts';
import { DAY_MS, HOUR_MS, MINUTE_MS } from '../../../shared/units/duration.ts';
import { median } from '../baseline/robust.ts';
import type { Cycle } from '../cycles/cycle.ts';
import {
  normalCutInKpa,
  normalCutOutKpa,
  recentCycles,
  isAfterReset,
  isCompleteRun,
  KPA_PER_PSI,
  normalAmpsOf,
} from './scene-queries.ts';
import { unbalance } from './electric/leg-imbalance.ts';
import { roundTo } from './round.ts';
import type { MinutePump, MinuteScene, Scene } from './scene.ts';

/** The median of five runs holds though two of them are odd. */
const RUNS = 5;
/** What is done at a visit shows within days. */
const AFTER_VISIT_MS = 3 * DAY_MS;
/**
 * Pressure that moves later than this many times the time that a healthy fill takes for its first 7
 * kPa is late.
 */
const LATE_RISE_RATIO = 2.5;
const LATE_RISE_MARGIN_S = 5;
const FIRST_KPA = 7;
/** After a shorter rest a leaking valve has not emptied the pipe yet. */
const LONG_REST_S = 900;

/** A night of heavy use has an end within these hours. */
const MIN_CONTINUOUS_H = 8;

/** Figures by the names under which the clues know them. */
export function gatherClues(scene: Scene): Evidence {
  const minute = scene.well.minutes[scene.well.minutes.length - 1];
  return {
    ...runClues(scene),
    ...minuteClues(scene, minute),
    ...riseClues(scene),
    ...waterClues(scene),
    ...cardClues(scene),
    ...visitClues(scene),
  };
}

function runClues(scene: Scene): Evidence {
  const usual = normalAmpsOf(scene);
  const amps = scene.pump.run?.amps ?? median(lastAmps(scene));
  const since = scene.atMs - DAY_MS;
  const day = scene.pump.cycles.filter(
    (cycle) => cycle.startedMs >= since && isAfterReset(scene, cycle.startedMs),
  );
  const failed = day.filter((cycle) => cycle.flags.includes('failed-start')).length;
  const good = day.filter((cycle) => isCompleteRun(cycle) && cycle.ranS >= 30).length;
  const last = day[day.length - 1];
  const cutOut = normalCutOutKpa(scene);
  const brokeOff =
    last?.cutOutKpa !== undefined &&
    cutOut !== undefined &&
    last.flags.includes('no-cut-out') &&
    last.cutOutKpa < cutOut - 2 * KPA_PER_PSI;
  return {
    // A drive's current follows demand and says nothing.
    ...(usual !== undefined &&
      amps !== undefined &&
      scene.pump.card.control !== 'variable-speed' && { ampsShare: roundTo(amps / usual, 3) }),
    ...(failed > 0 && { failedStarts: failed }),
    ...(good > 0 && { goodStarts: good }),
    ...(brokeOff && { brokeOffKpa: roundTo(last.cutOutKpa ?? 0, 0) }),
  };
}

function lastAmps(scene: Scene): number[] {
  return recentCycles(scene, RUNS, (cycle) => isCompleteRun(cycle) && cycle.amps !== undefined).map(
    (cycle) => cycle.amps!,
  );
}

function minuteClues(scene: Scene, minute: MinuteScene | undefined): Evidence {
  if (!minute || !isAfterReset(scene, minute.atMs - MINUTE_MS)) return {};
  const volts = voltsOf(minute.pumps[scene.pump.index]);
  const nominal = scene.pump.card.volts;
  return {
    ...(minute.storeM && { storeM: roundTo(minute.storeM.mean) }),
    ...(minute.levelM && { levelM: roundTo(minute.levelM.mean, 1) }),
    ...(minute.temperatureC && { temperatureC: roundTo(minute.temperatureC.mean, 1) }),
    ...(volts.length > 0 &&
      nominal !== undefined && { voltsShare: roundTo(Math.max(...volts) / nominal, 3) }),
    ...(volts.length === 3 && { voltsUnbalance: roundTo(unbalance(volts), 4) }),
  };
}

function voltsOf(pump: MinutePump | undefined): number[] {
  return (pump?.volts ?? []).map((line) => line.mean);
}

/**
 * Against the time that the first kPa of a fill take, the band being crossed at an even pace: more
 * at the bottom, where it is slowest.
 */
function riseClues(scene: Scene): Evidence {
  const cutIn = normalCutInKpa(scene);
  const cutOut = normalCutOutKpa(scene);
  const fillS = scene.pump.pinned?.ranLowS?.median ?? scene.pump.baseline?.ranLowS?.median;
  if (cutIn === undefined || cutOut === undefined || cutOut <= cutIn || fillS === undefined) return {};
  const rested = recentCycles(scene, RUNS, afterLongRest);
  const delay = median(rested.map((cycle) => cycle.riseDelayS!));
  if (delay === undefined || rested.length < 3) return {};
  const evenS = (fillS * FIRST_KPA) / (cutOut - cutIn);
  const paceS = Math.max(...rested.map((cycle) => cycle.ranS / Math.max(1, cycle.readings)));
  if (delay > LATE_RISE_RATIO * evenS + LATE_RISE_MARGIN_S + paceS) return { lateRiseS: roundTo(delay, 0) };
  return delay <= LATE_RISE_RATIO * evenS + paceS ? { promptRiseS: roundTo(delay, 0) } : {};
}

function afterLongRest(cycle: Cycle): boolean {
  return isCompleteRun(cycle) && cycle.riseDelayS !== undefined && (cycle.restedS ?? 0) >= LONG_REST_S;
}

function waterClues(scene: Scene): Evidence {
  const { deliveryRatio, prechargeKpa, normalPrechargeKpa } = scene.well.water;
  const { card } = scene.well;
  const atmosphere = atmosphericKpa(Math.min(card.altitudeM, 10_000));
  // What has not ceased for hours is newer than yesterday's leak.
  const continuousLoss = scene.well.water.continuousLoss;
  const leak =
    continuousLoss?.lPerH !== undefined && continuousLoss.hours >= MIN_CONTINUOUS_H
      ? 24 * continuousLoss.lPerH
      : scene.well.days[scene.well.days.length - 1]?.leakLPerDay;
  return {
    ...(deliveryRatio !== undefined && { deliveryShare: roundTo(deliveryRatio) }),
    ...(prechargeKpa !== undefined &&
      normalPrechargeKpa !== undefined && {
        airShare: roundTo((prechargeKpa + atmosphere) / (normalPrechargeKpa + atmosphere)),
      }),
    ...(leak !== undefined && card.tank?.volumeL !== undefined && { leakLPerDay: roundTo(leak, 0) }),
  };
}

function cardClues(scene: Scene): Evidence {
  const { phase, wires, kind, installed } = scene.pump.card;
  const tankKind = scene.well.card.tank?.kind;
  const age = installed === undefined ? NaN : (scene.atMs - Date.parse(installed)) / (365.25 * DAY_MS);
  return {
    ...(phase !== undefined && { phase }),
    ...(wires !== undefined && { wires }),
    ...(kind !== undefined && { pumpKind: kind }),
    ...(tankKind === 'plain' && { tankKind }),
    ...(age >= 0 && { ageYears: Math.floor(age) }),
  };
}

function visitClues(scene: Scene): Evidence {
  const { resetAtMs } = scene;
  const after = resetAtMs === undefined ? Infinity : scene.atMs - resetAtMs;
  return {
    ...(after < AFTER_VISIT_MS && { sinceVisitH: roundTo(after / HOUR_MS, 0) }),
    ...(scene.well.expected !== undefined && { expected: scene.well.expected }),
  };
}
