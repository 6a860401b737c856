/**
 * The line that tells a change of an alarm (contract, section 6): raised and changed say all,
 * cleared only what it was.
 */
import type { AlarmEvent, AlarmState } from '../../../../shared/api/events.ts';
import type { FigureValue, Figures } from '../../../../shared/text/en/reasons/reason-text.ts';
import { REASON_FORMATS } from '../../../../shared/text/en/reasons/format.ts';
import { reasonSentence, type StoredReason } from '../../../../shared/text/en/reasons/reasons.ts';
import { whyText } from '../../../../shared/text/en/reasons/why.ts';
import type { AlarmEntry } from './alarm-entry.ts';

export type EmitAlarm = (event: AlarmEvent) => void;

export function alarmEvent(well: string, entry: AlarmEntry, state: AlarmState, atMs: number): AlarmEvent {
  const named: AlarmEvent = {
    event: 'alarm',
    well,
    ...(entry.pump !== undefined && { pump: entry.pump }),
    ...(entry.node !== undefined && { node: entry.node }),
    alarm: entry.alarm,
    state,
    at: new Date(atMs).toISOString(),
  };
  if (state === 'cleared' || state === 'withdrawn') return named;
  return {
    ...named,
    since: new Date(entry.sinceMs).toISOString(),
    priority: entry.priority,
    ...reasonFields(entry),
    evidence: entry.evidence,
    causes: entry.causes,
  };
}

/** The reason of an event, its figures rounded, and its sentence. */
export function reasonFields({
  reason,
  figures,
}: StoredReason): Required<Pick<AlarmEvent, 'reason' | 'figures' | 'why'>> {
  const rounded = roundFigures(figures);
  // From the rounded figures, so that the sentence is the same when it is made again from what was
  // stored.
  return {
    reason,
    figures: rounded,
    why: reasonSentence({ reason, figures: rounded }, REASON_FORMATS.both) ?? '',
  };
}

/**
 * A line as it is stored: with its reason and figures; its sentence is made anew at each reading,
 * so that a better wording reaches old alarms too. Those of earlier versions have the sentence
 * alone and keep it.
 */
export function withoutSentence(event: AlarmEvent): AlarmEvent {
  if (event.reason === undefined) return event;
  const { why: _made, ...stored } = event;
  return stored;
}

/** The stored line with its sentence, its fields in the order in which the engine emits them. */
export function withSentence(stored: AlarmEvent): AlarmEvent {
  if (stored.reason === undefined) return stored;
  const { evidence, causes, ...event } = stored;
  return {
    ...event,
    why: whyText(stored, 'both'),
    ...(evidence && { evidence }),
    ...(causes && { causes }),
  };
}

/** More than any sentence prints. */
const SIGNIFICANT_FIGURES = 6;

function roundFigures(figures: Figures): Figures {
  return Object.fromEntries(Object.entries(figures).map(([name, value]) => [name, roundFigure(value)]));
}

function roundFigure(value: FigureValue): FigureValue {
  if (typeof value === 'number') return round(value);
  return Array.isArray(value) && value.every((item) => typeof item === 'number') ? value.map(round) : value;
}

function round(value: number): number {
  return Number.isInteger(value) ? value : Number(value.toPrecision(SIGNIFICANT_FIGURES));
}
