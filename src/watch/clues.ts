/**
 * What is known of a well beside what a watch looks at: the figures that speak for or against causes (shared/words/clues.ts), as far as they
 * are measured or on the card. Gathered only where something was found.
 */
import type { Evidence } from '../../shared/api/events.ts';
import { atmosphericKpa } from '../../shared/units/altitude.ts';
import { median } from '../baseline/robust.ts';
import type { Cycle } from '../cycles/cycle.ts';
import { cutInOf, cutOutOf, freshCycles, isFresh, isWhole, PSI, usualAmps } from './facts.ts';
import { unbalance } from './leg-imbalance.ts';
import { tidy } from './say.ts';
import type { MinutePump, MinuteScene, Scene } from './scene.ts';

const DAY_MS = 86_400_000;
const RUNS = 5;
/** What is done at a visit shows within days. */
const AFTER_VISIT_MS = 3 * DAY_MS;
/** Pressure that moves later than this many times the time that a healthy fill takes for its first 7 kPa is late. */
const LATE_TIMES = 2.5;
const LATE_OVER_S = 5;
const FIRST_KPA = 7;
/** After a shorter rest a leaking valve has not emptied the pipe yet. */
const LONG_REST_S = 900;

/** A night of heavy use has an end within these hours. */
const CEASELESS_H = 8;

/** Figures by the names under which the clues know them. */
export function cluesOf(scene: Scene): Evidence {
  const minute = scene.well.minutes[scene.well.minutes.length - 1];
  return {
    ...ofRuns(scene),
    ...ofMinute(scene, minute),
    ...ofRise(scene),
    ...ofWater(scene),
    ...ofCard(scene),
    ...ofPeople(scene),
  };
}

function ofRuns(scene: Scene): Evidence {
  const usual = usualAmps(scene);
  const amps = scene.pump.run?.amps ?? median(lastAmps(scene));
  const since = scene.atMs - DAY_MS;
  const day = scene.pump.cycles.filter(
    (cycle) => cycle.startedMs >= since && isFresh(scene, cycle.startedMs),
  );
  const failed = day.filter((cycle) => cycle.flags.includes('failed-start')).length;
  const good = day.filter((cycle) => isWhole(cycle) && cycle.ranS >= 30).length;
  const last = day[day.length - 1];
  const cutOut = cutOutOf(scene);
  const brokeOff =
    last?.cutOutKpa !== undefined &&
    cutOut !== undefined &&
    last.flags.includes('no-cut-out') &&
    last.cutOutKpa < cutOut - 2 * PSI;
  return {
    // A drive's current follows demand and says nothing.
    ...(usual !== undefined &&
      amps !== undefined &&
      scene.pump.card.control !== 'variable-speed' && { ampsShare: tidy(amps / usual, 3) }),
    ...(failed > 0 && { failedStarts: failed }),
    ...(good > 0 && { goodStarts: good }),
    ...(brokeOff && { brokeOffKpa: tidy(last.cutOutKpa ?? 0, 0) }),
  };
}

function lastAmps(scene: Scene): number[] {
  return freshCycles(scene, RUNS, (cycle) => isWhole(cycle) && cycle.amps !== undefined).map(
    (cycle) => cycle.amps!,
  );
}

function ofMinute(scene: Scene, minute: MinuteScene | undefined): Evidence {
  if (!minute || !isFresh(scene, minute.atMs - 60_000)) return {};
  const volts = voltsOf(minute.pumps[scene.pump.index]);
  const nominal = scene.pump.card.volts;
  return {
    ...(minute.levelM && { levelM: tidy(minute.levelM.mean, 1) }),
    ...(minute.temperatureC && { temperatureC: tidy(minute.temperatureC.mean, 1) }),
    ...(volts.length > 0 && nominal !== undefined && { voltsShare: tidy(Math.max(...volts) / nominal, 3) }),
    ...(volts.length === 3 && { voltsUnbalance: tidy(unbalance(volts), 4) }),
  };
}

function voltsOf(pump: MinutePump | undefined): number[] {
  return (pump?.volts ?? []).map((line) => line.mean);
}

/** Against the time that the first kPa of a fill take, the band being crossed at an even pace: more at the bottom, where it is slowest. */
function ofRise(scene: Scene): Evidence {
  const cutIn = cutInOf(scene);
  const cutOut = cutOutOf(scene);
  const fillS = scene.pump.pinned?.ranLowS?.median ?? scene.pump.baseline?.ranLowS?.median;
  if (cutIn === undefined || cutOut === undefined || cutOut <= cutIn || fillS === undefined) return {};
  const rested = freshCycles(scene, RUNS, afterLongRest);
  const delay = median(rested.map((cycle) => cycle.riseDelayS!));
  if (delay === undefined || rested.length < 3) return {};
  const evenS = (fillS * FIRST_KPA) / (cutOut - cutIn);
  const paceS = Math.max(...rested.map((cycle) => cycle.ranS / Math.max(1, cycle.readings)));
  if (delay > LATE_TIMES * evenS + LATE_OVER_S + paceS) return { lateRiseS: tidy(delay, 0) };
  return delay <= LATE_TIMES * evenS + paceS ? { promptRiseS: tidy(delay, 0) } : {};
}

function afterLongRest(cycle: Cycle): boolean {
  return isWhole(cycle) && cycle.riseDelayS !== undefined && (cycle.restedS ?? 0) >= LONG_REST_S;
}

function ofWater(scene: Scene): Evidence {
  const { deliveryShare, airKpa, airNormalKpa } = scene.well.water;
  const { card } = scene.well;
  const atmosphere = atmosphericKpa(Math.min(card.altitudeM, 10_000));
  // What has not ceased for hours is newer than yesterday's leak.
  const ceaseless = scene.well.water.ceaseless;
  const leak =
    ceaseless?.lPerH !== undefined && ceaseless.hours >= CEASELESS_H
      ? 24 * ceaseless.lPerH
      : scene.well.days[scene.well.days.length - 1]?.leakLPerDay;
  return {
    ...(deliveryShare !== undefined && { deliveryShare: tidy(deliveryShare) }),
    ...(airKpa !== undefined &&
      airNormalKpa !== undefined && { airShare: tidy((airKpa + atmosphere) / (airNormalKpa + atmosphere)) }),
    ...(leak !== undefined && card.tank?.volumeL !== undefined && { leakLPerDay: tidy(leak, 0) }),
  };
}

function ofCard(scene: Scene): Evidence {
  const { phase, wires, kind, installed } = scene.pump.card;
  const age = installed === undefined ? NaN : (scene.atMs - Date.parse(installed)) / (365.25 * DAY_MS);
  return {
    ...(phase !== undefined && { phase }),
    ...(wires !== undefined && { wires }),
    ...(kind !== undefined && { pumpKind: kind }),
    ...(age >= 0 && { ageYears: Math.floor(age) }),
  };
}

function ofPeople(scene: Scene): Evidence {
  const { freshFromMs } = scene;
  const after = freshFromMs === undefined ? Infinity : scene.atMs - freshFromMs;
  return {
    ...(after < AFTER_VISIT_MS && { sinceVisitH: tidy(after / 3_600_000, 0) }),
    ...(scene.well.expected !== undefined && { expected: scene.well.expected }),
  };
}
