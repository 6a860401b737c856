/**
 * Pressure falls while nobody draws water. Judged by whole local days: each day's leak is read from its quiet stretches
 * (src/hydraulics/), and a day can be wrong (a trickle against frost, a trough that fills all night), so two or three in a row must say it.
 */
import { isFresh, listOf } from './facts.ts';
import { sayLitres, tidy } from './say.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

/** 3.3 L/h. A drip a second is 31 L a day; a toilet that runs on starts at about 100 (EPA "Fix a Leak Week": bad from 340 L a day). */
const LEAST_L_PER_DAY = 80;
const DAYS = 3;
/** 12 L/h and more is told after two days. */
const LARGE_L_PER_DAY = 290;
const LARGE_DAYS = 2;
const BACK_SHARE = 0.6;
const DAY_MS = 86_400_000;

export const leak: Watch = {
  alarm: 'leak',
  each: 'well',
  on: ['day'],
  onDelayS: 0,
  offDelayS: 0,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  const { day } = scene;
  const found =
    day?.leakLPerDay ??
    scene.well.days.findLast((line) => line.date === day?.date && line.leakLPerDay !== undefined)
      ?.leakLPerDay;
  if (found === undefined || !isFresh(scene, scene.atMs - 1.3 * DAY_MS)) return undefined;
  // People said that water is drawn out of habit: what runs all night meanwhile is theirs.
  if (scene.well.expected !== undefined) return undefined;
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
  const freezing = (scene.well.minutes[scene.well.minutes.length - 1]?.temperatureC?.mean ?? 20) < 0;
  return {
    sinceMs: scene.atMs - count * DAY_MS,
    why: `About ${sayLitres(found)} a day leave while nobody draws water, on ${count} days running.`,
    evidence: { leakLPerDay: tidy(found, 0), days: count, litresPerHour: tidy(found / 24, 1) },
    causes: weigh({
      leak: 0.34,
      'open-tap': freezing ? 0.5 : 0.33,
      'check-valve': 0.11,
      'drop-pipe-leak': 0.11,
      'pitless-leak': 0.11,
    }),
  };
}
