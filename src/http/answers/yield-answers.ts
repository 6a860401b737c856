/** Yield tests of a well, and the longest run of a month that could be one. */
import { omitUndefined } from '../../../shared/omit-undefined.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import type { MeasuredTest } from '../../../shared/api/figures/yield-tests.ts';
import { currentEntries } from '../../../shared/entries/entry.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { DAY_MS } from '../../../shared/units/duration.ts';
import { AFTER_S, BEFORE_S, longestRun, measuredTest } from '../../logbook/figures/measured-test.ts';
import { yieldTests } from '../../logbook/figures/yield-tests.ts';
import type { LiveWell, WebDeps } from '../deps.ts';
import { wellChart } from '../well-chart.ts';
import { requireWell } from './well-answers.ts';

const MONTH_MS = 30 * DAY_MS;
/**
 * Levels are wanted to the minute; a run of more than a day and a half is told in coarser steps.
 */
const MAX_POINTS = 2500;
const MINUTE_MS = 60_000;

export async function yieldTestsAnswer(deps: WebDeps, name: string): Promise<Answer<'yieldTests'>> {
  const live = await requireWell(deps, name);
  const { card } = live;
  const nowMs = deps.now();
  return omitUndefined({
    nowMs,
    timeZone: card.timeZone,
    today: localDate(nowMs, card.timeZone),
    tests: yieldTests(currentEntries(await deps.logbook.entries(name)), card),
    measured: await measured(deps, live, nowMs),
  });
}

/** Of one pump alone: where several draw on a hole, no run is a test of it. */
async function measured(
  deps: WebDeps,
  { card, status }: LiveWell,
  nowMs: number,
): Promise<MeasuredTest | undefined> {
  const setDepthM = card.pumps[0]?.setDepthM;
  if (setDepthM === undefined || card.pumps.length > 1) return undefined;
  const rows = await deps.store.cycles(status.well, nowMs - MONTH_MS, nowMs + 1);
  const run = longestRun(rows);
  if (!run) return undefined;
  const nextStartMs = rows.find(({ startedMs }) => startedMs > run.startedMs)?.startedMs;
  const fromMs = run.startedMs - BEFORE_S * 1000;
  const toMs = Math.min(nowMs, run.stoppedMs + AFTER_S * 1000);
  const points = Math.min(MAX_POINTS, Math.ceil((toMs - fromMs) / MINUTE_MS));
  const levels = await wellChart(deps.store, card, { channel: 'level', fromMs, toMs, points });
  return measuredTest({ run, levels, setDepthM, ...(nextStartMs !== undefined && { nextStartMs }) });
}
