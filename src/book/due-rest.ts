/**
 * What a rest of the well does to its checks. Those that need pump, pressure or a tap that is used wait, and are due on the day the well
 * comes back; what is looked at from outside, and the frost, goes on. A rest calls for two checks itself: made ready for frost where it
 * stands still through the cold, and the water tested after a long one, which systems that close for a season do before
 * anybody drinks (EPA, Revised Total Coliform Rule, 40 CFR 141.854(i), from memory; for a private well a yardstick).
 */
import { localDate } from '../../shared/api/time-words.ts';
import { isDueKind, type DueKind } from '../../shared/words/due-words.ts';
import type { Done } from './check-done.ts';
import { addDays, daysBetween, nextOn } from './days.ts';
import type { Call } from './due.ts';
import type { Round } from './due-rules.ts';
import { restNow, type Rest, type RestAct } from './rests.ts';

export interface RestDays {
  is: Rest['is'];
  /** It is over. */
  over: boolean;
  sinceMs: number;
  /** ISO dates in the well's own time zone. */
  sinceOn: string;
  /** The day on which it comes back, and the last one before that; absent where nobody knows. */
  backOn?: string;
  untilOn?: string;
}

/** Water that stood so long is tested (common practice, no source). */
const LONG_REST_DAYS = 30;
/** A sample drawn so shortly before the well came back is the test of its start. */
const BEFORE_BACK_DAYS = 14;
/** Made ready so shortly before it was laid up is made ready for that. */
const READY_BEFORE_DAYS = 31;
/** The cold half of the year begins with the day on which all is ready for it. */
const COLD_DAYS = 183;

const AT_REST: Record<DueKind, 'waits' | 'goes-on'> = {
  'water-test': 'waits',
  precharge: 'waits',
  'pressure-gauge': 'waits',
  'relief-valve': 'waits',
  'node-calibration': 'waits',
  'stock-water': 'waits',
  'well-cap': 'goes-on',
  freeze: 'goes-on',
};

/** A check of people's own waits too: a filter or a trough is of no use to a well that stands still. */
function waits(check: string): boolean {
  return !isDueKind(check) || AT_REST[check] === 'waits';
}

/** The rest that is on, or the last one. */
export function restDays(acts: readonly RestAct[], nowMs: number, timeZone: string): RestDays | undefined {
  const { now, last } = restNow(acts, nowMs);
  const rest = now ?? last;
  if (!rest) return undefined;
  const on = (ms: number): string => localDate(ms, timeZone);
  const { is, sinceMs, endMs } = rest;
  return {
    is,
    over: now === undefined,
    sinceMs,
    sinceOn: on(sinceMs),
    ...(endMs !== undefined && { backOn: on(endMs), untilOn: on(endMs - 1) }),
  };
}

/** A call as it stands after a rest had its way: moved to the day the well comes back, or without a day while nobody knows that. */
export type Moved = { call: Call; by?: 'waits' | 'waited' } | { waits: Call };

export function moved(check: string, call: Call, rest: RestDays | undefined): Moved {
  if (!rest || !waits(check)) return { call };
  const { backOn, over, sinceOn } = rest;
  if (backOn === undefined) return { waits: call };
  const inIt = call.on < backOn && (!over || call.on >= sinceOn || isLong(rest));
  if (!inIt) return { call };
  const late = call.on < sinceOn ? ` It was due on ${call.on} already.` : '';
  return { call: { ...call, on: backOn, because: `${call.because}${late}` }, by: over ? 'waited' : 'waits' };
}

function isLong({ sinceOn, backOn }: RestDays): boolean {
  return backOn !== undefined && daysBetween(sinceOn, backOn) >= LONG_REST_DAYS;
}

const STANDS: Record<Rest['is'], string> = { 'laid-up': 'Laid up', 'out-of-service': 'Out of service' };

/** Why a check waits, or waited. */
export function restWords({ is, over, sinceOn, untilOn, backOn }: RestDays): string {
  if (over) return `The well stood still until ${backOn}.`;
  return untilOn === undefined
    ? `${STANDS[is]} since ${sinceOn}, and until when is not written down: it waits.`
    : `${STANDS[is]} until ${untilOn}: it waits until then.`;
}

/** What the rest itself asks for. */
export function restCalls(
  kind: DueKind,
  rest: RestDays | undefined,
  { last, round }: { last: Done | undefined; round: Round | undefined },
): Call[] {
  if (!rest) return [];
  const lastOn = last?.counts ? last.on : '';
  if (kind === 'water-test') return startCall(rest, lastOn);
  return kind === 'freeze' ? frostCall(rest, lastOn, round) : [];
}

function startCall(rest: RestDays, lastOn: string): Call[] {
  const { sinceOn, untilOn, backOn } = rest;
  if (backOn === undefined || !isLong(rest) || lastOn >= addDays(backOn, -BEFORE_BACK_DAYS)) return [];
  const because = `The well stands still from ${sinceOn} to ${untilOn}: it is flushed, and its water tested before anybody drinks it.`;
  return [
    {
      on: backOn,
      because: rest.over ? because.replace('stands', 'stood') : because,
      cautions: ['test-results'],
    },
  ];
}

/** Nobody may be there on the usual day, or it is past already: so it is done when the well is laid up. */
function frostCall(rest: RestDays, lastOn: string, round: Round | undefined): Call[] {
  const { over, sinceOn, backOn } = rest;
  if (over || round?.is !== 'on') return [];
  // The frost that is on, or the next one.
  const frostOn = nextOn(round.day, addDays(sinceOn, 1 - COLD_DAYS));
  if (backOn !== undefined && frostOn >= backOn) return [];
  const readyFrom = frostOn <= sinceOn ? addDays(frostOn, -COLD_DAYS) : addDays(sinceOn, -READY_BEFORE_DAYS);
  if (lastOn >= readyFrom) return [];
  const because = `It stands still since ${sinceOn} and through the cold: what stands freezes first, and is made ready when it is laid up.`;
  return [{ on: sinceOn, because }];
}
