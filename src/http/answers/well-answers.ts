/**
 * A well as the list and its own page give it: what the run loop knows, joined with what the store
 * keeps, and said in words.
 */
import { omitUndefined } from '../../../shared/omit-undefined.ts';
import type { CycleRow } from '../../core/cycles/cycle-row.ts';
import type { AlarmAnswer } from '../../../shared/api/alarms.ts';
import type { BaselineEvent, DayEvent } from '../../../shared/api/events.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import {
  attentionOf,
  compareByAttention,
  doingWords,
  headlineWords,
} from '../../../shared/text/en/well-words.ts';
import type {
  PumpDetail,
  RecentDay,
  WellAnswer,
  WellDetail,
  WellStatus,
  WellsAnswer,
  WellSummary,
} from '../../../shared/api/wells.ts';
import { DAY_MS } from '../../../shared/units/duration.ts';
import type { Card, PumpCard } from '../../core/domain/card.ts';
import { namesOnCard } from '../../core/notify/names-on-card.ts';
import { baselineEvent } from '../../core/well/baseline-event.ts';
import { activeByWell, activeSiteAlarms } from './alarm-answers.ts';
import { checkAnswers } from './check-answers.ts';
import type { LiveWell, WebDeps } from '../deps.ts';
import { mapInSlices } from '../in-slices.ts';
import { ProblemError } from '../problem.ts';
import { texts } from '../texts.ts';

/** The small ribbon of the list. */
const RECENT_DAYS = 14;
/**
 * Where the last run is looked for: a well that rested longer has no run worth laying over the
 * usual one.
 */
const LAST_RUN_MS = 14 * DAY_MS;

/** @throws ProblemError 404. */
export async function requireWell(deps: WebDeps, name: string): Promise<LiveWell> {
  const well = await deps.live.well(name);
  if (!well) throw new ProblemError(404, texts().unknownWell(name));
  return well;
}

export function wellSummary(now: WellStatus, activeAlarms: AlarmAnswer[], nowMs: number): WellSummary {
  return {
    ...now,
    attention: attentionOf(now, activeAlarms, nowMs),
    headline: {
      us: headlineWords(now, activeAlarms, 'us', nowMs),
      metric: headlineWords(now, activeAlarms, 'metric', nowMs),
    },
    activity: { us: doingWords(now, 'us', nowMs), metric: doingWords(now, 'metric', nowMs) },
    activeAlarms,
  };
}

async function wellAnswer(
  deps: WebDeps,
  now: WellStatus,
  activeAlarms: AlarmAnswer[],
  nowMs: number,
): Promise<WellAnswer> {
  const fromMs = nowMs - (RECENT_DAYS + 1) * DAY_MS;
  return {
    ...wellSummary(now, activeAlarms, nowMs),
    recentDays: recentDays(await deps.store.days(now.well, fromMs, nowMs + DAY_MS), now, nowMs),
    ...normalDay(await deps.live.well(now.well)),
  };
}

/** Only where it is known of every pump: a part of the sum would call every day unusual. */
function normalDay(live: LiveWell | undefined): { normalRanS?: number } {
  const known = live?.normals.map(({ baseline }) => baseline.ranSPerDay?.median) ?? [];
  if (known.length === 0 || known.length < (live?.card.pumps.length ?? 0)) return {};
  const sum = known.reduce<number>((a, ranS) => a + (ranS ?? Number.NaN), 0);
  return Number.isNaN(sum) ? {} : { normalRanS: sum };
}

/**
 * Days of all pumps together, oldest first; a day of which nothing is known is there, empty. Today
 * is not over and left out.
 */
export function recentDays(days: readonly DayEvent[], well: WellStatus, nowMs: number): RecentDay[] {
  // Noon of the day is the same date in any zone's daylight-saving change.
  const noonMs = Date.parse(`${localDate(nowMs, well.timeZone)}T12:00:00Z`);
  return Array.from({ length: RECENT_DAYS }, (_, i) => {
    const date = new Date(noonMs - (RECENT_DAYS - i) * DAY_MS).toISOString().slice(0, 10);
    return sumDay(
      date,
      days.filter((day) => day.date === date),
    );
  });
}

function sumDay(date: string, days: readonly DayEvent[]): RecentDay {
  const sum = (key: 'ranS' | 'cycles'): number | undefined => {
    const known = days.map((day) => day[key]).filter((value) => value !== undefined);
    return known.length === 0 ? undefined : known.reduce((a, b) => a + b, 0);
  };
  const heard = days.map((day) => day.heardS).filter((value) => value !== undefined);
  return omitUndefined({
    date,
    ranS: sum('ranS'),
    cycles: sum('cycles'),
    heardS: heard.length === 0 ? undefined : Math.min(...heard),
  });
}

export async function wellsAnswer(deps: WebDeps): Promise<WellsAnswer> {
  const nowMs = deps.now();
  const active = await activeByWell(deps);
  const wells = await mapInSlices(await deps.live.wells(), (now) =>
    wellAnswer(deps, now, active.get(now.well) ?? [], nowMs),
  );
  return {
    nowMs,
    version: deps.version,
    pendingNodes: (await deps.store.nodes()).filter((node) => !node.approved).length,
    siteAlarms: await activeSiteAlarms(deps),
    wells: wells.toSorted(compareByAttention),
  };
}

export async function wellDetail(deps: WebDeps, name: string): Promise<WellDetail> {
  const nowMs = deps.now();
  const live = await requireWell(deps, name);
  const active = (await activeByWell(deps, name)).get(name) ?? [];
  const cycles = await deps.store.cycles(name, nowMs - LAST_RUN_MS, nowMs + DAY_MS);
  const baselines = await deps.store.baselines(name);
  return {
    nowMs,
    well: await wellAnswer(deps, live.status, active, nowMs),
    card: cardFacts(live.card),
    names: namesOnCard(live.card),
    pumps: live.card.pumps.map((pump) => {
      const { id } = pump;
      return {
        pump: id,
        ...pumpFacts(pump),
        ...baselineFields(
          live,
          id,
          baselines.findLast((one) => one.pump === id),
        ),
        ...normalRun(live, id),
        ...lastRun(cycles, id),
      };
    }),
    sensors: live.sensors,
    checks: checkAnswers(live, await deps.store.nodes()),
  };
}

/**
 * What was told last is what is normal now, unless a visit began a new normal since and none is
 * known yet.
 */
function baselineFields(
  live: LiveWell,
  pump: string,
  lastBaseline: BaselineEvent | undefined,
): Pick<PumpDetail, 'baseline' | 'previousBaseline'> {
  const before = live.previousNormals.find((one) => one.pump === pump)?.baseline;
  const known = live.normals.some((one) => one.pump === pump) || lastBaseline?.noneBecause !== undefined;
  return {
    ...(lastBaseline && (before === undefined || known) && { baseline: lastBaseline }),
    ...(before && { previousBaseline: baselineEvent(live.status.well, pump, before) }),
  };
}

/** What the card says of the pump, for whoever is to work on it. */
function pumpFacts(pump: PumpCard): Omit<PumpDetail, 'pump'> {
  const { control, kind, motorW, volts, phase, wires, ratedLPerS, setDepthM, installed, maxAmps } = pump;
  const facts = { control, kind, motorW, volts, phase, wires, ratedLPerS, setDepthM, installed, maxAmps };
  return omitUndefined(facts);
}

function normalRun(live: LiveWell, pump: string): Pick<PumpDetail, 'normalRun'> {
  const shape = live.normals.find((one) => one.pump === pump)?.baseline.shape;
  return shape ? { normalRun: shape } : {};
}

function lastRun(cycles: readonly CycleRow[], pump: string): Pick<PumpDetail, 'lastCycle' | 'lastRun'> {
  const last = cycles.findLast((row) => row.event.pump === pump);
  if (!last) return {};
  return { lastCycle: last.event, ...(last.shape ? { lastRun: last.shape } : {}) };
}

function cardFacts(card: Card): WellDetail['card'] {
  const { tank, reliefKpa } = card;
  const { cutInKpa, cutOutKpa, lowCutOffKpa } = card.switch;
  return omitUndefined({
    altitudeM: card.altitudeKnown ? card.altitudeM : undefined,
    cutInKpa,
    cutOutKpa,
    lowCutOffKpa,
    reliefKpa,
    tankKind: tank?.kind,
    tankL: tank?.volumeL,
    prechargeKpa: tank?.prechargeKpa,
    setDepthM: card.pumps[0]?.setDepthM,
  });
}
