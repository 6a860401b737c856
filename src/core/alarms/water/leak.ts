/**
 * Pressure falls while nobody draws water. Judged by whole local days: each day's leak is read from
 * its quiet stretches (src/core/hydraulics/), and a day can be wrong (a trickle against frost, a
 * trough that fills all night), so two or three in a row must say it. A large loss is told sooner,
 * once no hour of a day and a night was without it; one that leaves no quiet minutes is known by
 * its starts (./regular-starts.ts). Without a tank on the card the fall of pressure is judged.
 */
import { DAY_MS, DAY_S, HOUR_MS } from '../../../../shared/units/duration.ts';
import type { Reason } from '../../../../shared/text/en/reasons/reasons.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { regularStarts, lossFromStarts, type RestMemory } from './regular-starts.ts';
import { isAfterReset } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { LossScene, Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * 3.3 L/h. A drip a second is 31 L a day; a toilet that runs on starts at about 100 (EPA "Fix a
 * Leak Week": bad from 340 L a day).
 */
const MIN_L_PER_DAY = 80;
const MIN_DAYS = 3;
/** 12 L/h and more is told after two days. */
const LARGE_L_PER_DAY = 290;
const MIN_LARGE_DAYS = 2;
const CLEAR_RATIO = 0.6;
/**
 * By so much of what the pump delivers a run must bring less than the loss at rest explains; fills
 * tell their delivery to some 2 %.
 */
const MIN_RUN_LOSS = 0.05;
/**
 * 30 L/h that never cease are told after these hours: a trickle or a drip line of one night has
 * stopped by then.
 */
const CONTINUOUS_L_PER_DAY = 720;
const MIN_CONTINUOUS_H = 20;
/**
 * Starts as even as a clock may be a drip field, a trough or taps left running against frost: a
 * second night must say it there.
 */
const MIN_TWO_NIGHTS_H = 44;
/**
 * 2 gpm, the least that an open-loop heat pump of two tons draws while it runs: 1 gpm a ton where
 * 1.5 is usual (both from memory). In a cold week it hardly rests, and while it rests the pump
 * refills the tank: the quietest minutes are then its draw, and a leak as large cannot be told from
 * it.
 */
const HEAT_PUMP_L_PER_DAY = 10_900;
/**
 * 1 L/h takes so much from the pressure of a tank of 325 L (86 gal) with 257 kPa of air, at 345 kPa
 * (50 psi): 446 kPa squared over 84,000 kPa L. An unknown tank is taken for that one; a smaller one
 * shows the same leak larger.
 */
const REFERENCE_KPA_PER_L = 2.4;

interface LeakMemory extends RestMemory {
  /** The loss of each of the last days in a row that had one, L a day. */
  days?: number[];
}

export const leak: Watch<LeakMemory> = {
  alarm: 'leak',
  scope: 'well',
  triggers: ['day', 'minute', 'cycle'],
  initialMemory: () => ({}),
  evaluate,
};

function evaluate(scene: Scene, memory: LeakMemory): Evaluation {
  // People said that water is drawn out of habit: what runs all night meanwhile is theirs.
  if (scene.well.expected !== undefined) return cannotTell('expected');
  if (scene.trigger === 'minute') return evaluateHours(scene) ?? cannotTell('not-this-trigger');
  if (scene.trigger === 'cycle')
    return evaluateHours(scene) ?? evaluateStarts(scene, memory) ?? cannotTell('not-this-trigger');
  const found = evaluateDays(scene, memory);
  // A day's quiet minutes may all lie before a loss that left none since.
  return found.is === 'clear' && evaluateStarts(scene, memory) ? cannotTell('not-this-trigger') : found;
}

/** As litres of the tank a day, or of the tank that an unknown one is taken for. */
function litersPerDay(loss: LossScene): number {
  return 24 * (loss.lPerH ?? loss.fallKpaPerH / REFERENCE_KPA_PER_L);
}

/** What the card says is drawn on purpose all the time, L a day. */
function meantLPerDay({ well }: Scene): number {
  return DAY_S * (well.card.continuousDrawLPerS ?? 0);
}

/** A loss less what is drawn on purpose. */
function unmeant(scene: Scene, loss: LossScene): LossScene {
  const meant = meantLPerDay(scene);
  if (meant === 0) return loss;
  const ratio = Math.max(0, 1 - meant / litersPerDay(loss));
  return {
    ...(loss.lPerH !== undefined && { lPerH: ratio * loss.lPerH }),
    fallKpaPerH: ratio * loss.fallKpaPerH,
    ...(loss.deliveryFraction !== undefined && { deliveryFraction: ratio * loss.deliveryFraction }),
  };
}

function evaluateDays(scene: Scene, memory: LeakMemory): Evaluation {
  const { day } = scene;
  const { dayLoss } = scene.well.water;
  const loss = dayLoss && unmeant(scene, dayLoss);
  const measured =
    day?.leakLPerDay ??
    scene.well.days.findLast((line) => line.date === day?.date && line.leakLPerDay !== undefined)
      ?.leakLPerDay ??
    (dayLoss && dayLoss.lPerH === undefined ? litersPerDay(dayLoss) : undefined);
  if (measured === undefined)
    return cannotTell(isPressureMeasured(scene) ? 'too-few-readings' : 'needs-pressure');
  const found = Math.max(0, measured - meantLPerDay(scene));
  if (!isAfterReset(scene, scene.atMs - 1.3 * DAY_MS)) return cannotTell('too-few-days');
  const days = [...(memory.days ?? []), Math.round(found)].slice(-MIN_DAYS);
  memory.days = days;
  if (found < CLEAR_RATIO * MIN_L_PER_DAY) {
    memory.days = [];
    return CLEAR;
  }
  const large = days.slice(-MIN_LARGE_DAYS);
  const isLarge = large.length === MIN_LARGE_DAYS && Math.min(...large) >= LARGE_L_PER_DAY;
  // A day that was the heat pump's says nothing of the days beside it.
  if (mayBeHeatPump(scene, Math.max(...large))) return cannotTell('other-alarm-explains');
  // Between the calls of a thermostat few minutes are quiet, and water still settles in them.
  const isSmall = !hasHeatPump(scene) && days.length === MIN_DAYS && Math.min(...days) >= MIN_L_PER_DAY;
  if (!isLarge && !isSmall) return cannotTell(found < MIN_L_PER_DAY ? 'near-limit' : 'not-long-enough');
  const count = isLarge && !isSmall ? MIN_LARGE_DAYS : days.length;
  const lossToReport: LossScene =
    loss?.lPerH === undefined && loss ? loss : { lPerH: found / 24, fallKpaPerH: 0 };
  return finding(scene, {
    sinceMs: scene.atMs - count * DAY_MS,
    loss: lossToReport,
    reason: 'lost-on-days',
    figures: { ...lossFigures(lossToReport), days: count },
    evidence: { days: count, ...runLossEvidence(scene, lossToReport.deliveryFraction) },
  });
}

function hasHeatPump({ well }: Scene): boolean {
  return well.card.uses.includes('heat-pump');
}

function mayBeHeatPump(scene: Scene, lostLPerDay: number): boolean {
  return hasHeatPump(scene) && lostLPerDay >= HEAT_PUMP_L_PER_DAY;
}

function isPressureMeasured({ well }: Scene): boolean {
  return well.minutes.some((minute) => minute.kpa !== undefined);
}

/**
 * Asked each minute; says nothing while a still hour was among the last ones, since `evaluateDays`
 * judges that.
 */
function evaluateHours(scene: Scene): Active | undefined {
  const { continuousLoss } = scene.well.water;
  if (!continuousLoss || continuousLoss.hours < MIN_CONTINUOUS_H) return undefined;
  const loss = { ...unmeant(scene, continuousLoss), hours: continuousLoss.hours };
  const lost = litersPerDay(loss);
  if (lost < CONTINUOUS_L_PER_DAY || mayBeHeatPump(scene, lost)) return undefined;
  const sinceMs = scene.atMs - loss.hours * HOUR_MS;
  if (!isAfterReset(scene, sinceMs)) return undefined;
  return finding(scene, {
    sinceMs,
    loss,
    reason: 'lost-without-pause',
    figures: { ...lossFigures(loss), hours: loss.hours },
    evidence: { ceaselessH: loss.hours, ...runLossEvidence(scene, loss.deliveryFraction) },
  });
}

/**
 * Asked after each cycle. Fills with hardly a rest between them leave no quiet minutes, so neither
 * of the others can see such a loss.
 */
function evaluateStarts(scene: Scene, memory: LeakMemory): Active | undefined {
  const even = regularStarts(scene, memory);
  // Its thermostat starts the pump as evenly as a leak does, for as long as the cold lasts.
  if (hasHeatPump(scene)) return undefined;
  const wantedH = mayRunAllNight(scene) ? MIN_TWO_NIGHTS_H : MIN_CONTINUOUS_H;
  const all = even && even.hours >= wantedH ? lossFromStarts(scene, even) : undefined;
  const loss = all && unmeant(scene, all);
  if (!even || !loss || litersPerDay(loss) < CONTINUOUS_L_PER_DAY) return undefined;
  return finding(scene, {
    sinceMs: even.sinceMs,
    loss,
    reason: 'lost-between-starts',
    figures: { ...lossFigures(loss), restS: even.restS, hours: even.hours },
    // Nothing of what runs lose besides: every fill is made against the loss, so delivery is not
    // known apart from it.
    evidence: { ceaselessH: even.hours, restS: roundTo(even.restS, 0) },
  });
}

function mayRunAllNight(scene: Scene): boolean {
  return isFreezing(scene) || scene.well.card.uses.some((use) => use !== 'house');
}

function isFreezing({ well }: Scene): boolean {
  return (well.minutes[well.minutes.length - 1]?.temperatureC?.mean ?? 20) < 0;
}

/** What a run loses beside the loss that goes on at rest, as a share of the pump's delivery. */
function runLossEvidence({ well }: Scene, fraction: number | undefined): Active['evidence'] {
  const { deliveryRatio, dayLoss } = well.water;
  const atRest = fraction ?? dayLoss?.deliveryFraction;
  if (deliveryRatio === undefined || atRest === undefined) return {};
  const besides = 1 - deliveryRatio - atRest;
  return besides >= MIN_RUN_LOSS ? { runsLoseShare: roundTo(besides) } : {};
}

function lossFigures({ lPerH, fallKpaPerH, deliveryFraction }: LossScene) {
  return lPerH === undefined
    ? { fallKpaPerH, ...(deliveryFraction !== undefined && { deliveryFraction }) }
    : { lossLPerDay: 24 * lPerH };
}

type LossReason = Extract<Reason, { reason: `lost-${string}` }>;

function finding(
  scene: Scene,
  {
    loss,
    evidence,
    ...found
  }: { sinceMs: number; loss: LossScene; evidence: Active['evidence'] } & LossReason,
): Active {
  const { lPerH, fallKpaPerH, deliveryFraction } = loss;
  return {
    is: 'active',
    ...found,
    evidence: {
      ...(lPerH === undefined
        ? {
            lossKpaPerH: roundTo(fallKpaPerH, 1),
            ...(deliveryFraction !== undefined && { lossShare: roundTo(deliveryFraction, 4) }),
          }
        : { leakLPerDay: roundTo(24 * lPerH, 0), litresPerHour: roundTo(lPerH, 1) }),
      ...evidence,
    },
    causes: weighCauses({
      leak: 0.32,
      'open-tap': isFreezing(scene) ? 0.5 : 0.31,
      'check-valve': 0.1,
      'drop-pipe-leak': 0.1,
      'pitless-leak': 0.1,
      'hydrant-leak': 0.09,
    }),
  };
}
