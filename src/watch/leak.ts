/**
 * Pressure falls while nobody draws water. Judged by whole local days: each day's leak is read from its quiet stretches
 * (src/hydraulics/), and a day can be wrong (a trickle against frost, a trough that fills all night), so two or three in a row must say it.
 * A large loss is told sooner, once no hour of a day and a night was without it; one that leaves no quiet minutes is known by its starts
 * (./even-starts.ts). Without a tank on the card the fall of pressure is judged.
 */
import { evenStarts, lossOfStarts } from './even-starts.ts';
import { isFresh, listOf } from './facts.ts';
import { sayLitres, sayPressure, sayShare, sayTime, tidy } from './say.ts';
import type { Finding, LossScene, Memo, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

/** 3.3 L/h. A drip a second is 31 L a day; a toilet that runs on starts at about 100 (EPA "Fix a Leak Week": bad from 340 L a day). */
const LEAST_L_PER_DAY = 80;
const DAYS = 3;
/** 12 L/h and more is told after two days. */
const LARGE_L_PER_DAY = 290;
const LARGE_DAYS = 2;
const BACK_SHARE = 0.6;
/** By so much of what the pump delivers a run must bring less than the loss at rest explains; fills tell their delivery to some 2 %. */
const LEAST_LOST_IN_RUNS = 0.05;
const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;
/** 30 L/h that never cease are told after these hours: a trickle or a drip line of one night has stopped by then. */
const CEASELESS_L_PER_DAY = 720;
const CEASELESS_H = 20;
/** Starts as even as a clock may be a drip field, a trough or taps left running against frost: a second night must say it there. */
const SECOND_NIGHT_H = 44;
/**
 * 1 L/h takes so much from the pressure of a tank of 325 L (86 gal) with 257 kPa of air, at 345 kPa (50 psi): 446 kPa squared over 84,000 kPa L.
 * An unknown tank is taken for that one; a smaller one shows the same leak larger.
 */
const KPA_PER_L = 2.4;

export const leak: Watch = {
  alarm: 'leak',
  each: 'well',
  on: ['day', 'minute', 'cycle'],
  onDelayS: 0,
  offDelayS: 0,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  // People said that water is drawn out of habit: what runs all night meanwhile is theirs.
  if (scene.well.expected !== undefined) return undefined;
  if (scene.why === 'minute') return byHours(scene);
  if (scene.why === 'cycle') return byHours(scene) ?? byStarts(scene, memo);
  const found = byDays(scene, memo);
  // A day's quiet minutes may all lie before a loss that left none since.
  return found === null && byStarts(scene, memo) ? undefined : found;
}

/** As litres of the tank a day, or of the tank that an unknown one is taken for. */
function litresADay(loss: LossScene): number {
  return 24 * (loss.lPerH ?? loss.fallKpaPerH / KPA_PER_L);
}

function byDays(scene: Scene, memo: Memo): Finding | null | undefined {
  const { day } = scene;
  const loss = scene.well.water.dayLoss;
  const found =
    day?.leakLPerDay ??
    scene.well.days.findLast((line) => line.date === day?.date && line.leakLPerDay !== undefined)
      ?.leakLPerDay ??
    (loss && loss.lPerH === undefined ? litresADay(loss) : undefined);
  if (found === undefined || !isFresh(scene, scene.atMs - 1.3 * DAY_MS)) return undefined;
  const days = [...listOf(memo, 'days'), Math.round(found)].slice(-DAYS);
  memo['days'] = days;
  if (found < BACK_SHARE * LEAST_L_PER_DAY) {
    memo['days'] = [];
    return null;
  }
  const large = days.slice(-LARGE_DAYS);
  const isLarge = large.length === LARGE_DAYS && Math.min(...large) >= LARGE_L_PER_DAY;
  const isSmall = days.length === DAYS && Math.min(...days) >= LEAST_L_PER_DAY;
  if (!isLarge && !isSmall) return undefined;
  const count = isLarge && !isSmall ? LARGE_DAYS : days.length;
  const said: LossScene = loss?.lPerH === undefined && loss ? loss : { lPerH: found / 24, fallKpaPerH: 0 };
  return finding(scene, {
    sinceMs: scene.atMs - count * DAY_MS,
    loss: said,
    while: `while nobody draws water, on ${count} days running`,
    evidence: { days: count, ...ofRuns(scene, said.share) },
  });
}

/** Asked each minute; says nothing while a still hour was among the last ones, since `byDays` judges that. */
function byHours(scene: Scene): Finding | undefined {
  const loss = scene.well.water.ceaseless;
  if (!loss || litresADay(loss) < CEASELESS_L_PER_DAY || loss.hours < CEASELESS_H) return undefined;
  const sinceMs = scene.atMs - loss.hours * HOUR_MS;
  if (!isFresh(scene, sinceMs)) return undefined;
  return finding(scene, {
    sinceMs,
    loss,
    while: `in the quietest minutes of every hour, by day and by night, for ${sayTime(loss.hours * 3600)} now`,
    evidence: { ceaselessH: loss.hours, ...ofRuns(scene, loss.share) },
  });
}

/** Asked after each cycle. Fills with hardly a rest between them leave no quiet minutes, so neither of the others can see such a loss. */
function byStarts(scene: Scene, memo: Memo): Finding | undefined {
  const even = evenStarts(scene, memo);
  const wantedH = mayRunOn(scene) ? SECOND_NIGHT_H : CEASELESS_H;
  const loss = even && even.hours >= wantedH ? lossOfStarts(scene, even) : undefined;
  if (!even || !loss || litresADay(loss) < CEASELESS_L_PER_DAY) return undefined;
  return finding(scene, {
    sinceMs: even.sinceMs,
    loss,
    falls: 'from cut-out to cut-in',
    while: `in rests of ${sayTime(even.restS)} as even as a clock, by day and by night, for ${sayTime(even.hours * 3600)} now`,
    // Nothing of what runs lose besides: every fill is made against the loss, so delivery is not known apart from it.
    evidence: { ceaselessH: even.hours, restS: tidy(even.restS, 0) },
  });
}

function mayRunOn(scene: Scene): boolean {
  return isFreezing(scene) || scene.well.card.uses.some((use) => use !== 'house');
}

function isFreezing({ well }: Scene): boolean {
  return (well.minutes[well.minutes.length - 1]?.temperatureC?.mean ?? 20) < 0;
}

/** What a run loses beside the loss that goes on at rest, as a share of the pump's delivery. */
function ofRuns({ well }: Scene, share: number | undefined): Finding['evidence'] {
  const { deliveryShare, dayLoss } = well.water;
  const atRest = share ?? dayLoss?.share;
  if (deliveryShare === undefined || atRest === undefined) return {};
  const besides = 1 - deliveryShare - atRest;
  return besides >= LEAST_LOST_IN_RUNS ? { runsLoseShare: tidy(besides) } : {};
}

function finding(
  scene: Scene,
  found: { sinceMs: number; loss: LossScene; falls?: string; while: string; evidence: Finding['evidence'] },
): Finding {
  const { lPerH, fallKpaPerH, share } = found.loss;
  const falls = found.falls ?? `by ${sayPressure(fallKpaPerH)} an hour`;
  const ofPump = share === undefined ? '' : `, about ${sayShare(share)} of what the pump delivers`;
  return {
    sinceMs: found.sinceMs,
    why:
      lPerH === undefined
        ? `Pressure falls ${falls} ${found.while}${ofPump}. How many litres that is cannot be said: the tank is not on the card.`
        : `About ${sayLitres(24 * lPerH)} a day leave ${found.while}.`,
    evidence: {
      ...(lPerH === undefined
        ? { lossKpaPerH: tidy(fallKpaPerH, 1), ...(share !== undefined && { lossShare: tidy(share, 4) }) }
        : { leakLPerDay: tidy(24 * lPerH, 0), litresPerHour: tidy(lPerH, 1) }),
      ...found.evidence,
    },
    causes: weigh({
      leak: 0.34,
      'open-tap': isFreezing(scene) ? 0.5 : 0.33,
      'check-valve': 0.11,
      'drop-pipe-leak': 0.11,
      'pitless-leak': 0.11,
    }),
  };
}
