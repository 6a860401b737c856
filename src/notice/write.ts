/**
 * The words of one notice: a subject that says well, alarm and how soon to act, and a text that says why, what it likely is, the first
 * safe step, and what to be careful of, with figures in people's units. The wording of alarms and causes is shared with the pages
 * (./words-for.ts).
 */
import type { AlarmEvent } from '../../shared/api/events.ts';
import { momentWords } from '../../shared/api/time-words.ts';
import type { UnitSystem } from '../../shared/quantity/print-quantity.ts';
import { CAUTIONS } from '../../shared/words/cautions.ts';
import { figureLines } from '../../shared/words/figures.ts';
import { URGENCY_WORDS, urgencyOf } from '../../shared/words/urgency.ts';
import { wordsFor } from './words-for.ts';

export interface ToWrite {
  /** The line that was said. */
  event: AlarmEvent;
  /** The last raised or changed line, which carries why, evidence and causes. */
  last: AlarmEvent;
  /** It was told as over, and is not. */
  notOver?: boolean;
  nowMs: number;
  units: UnitSystem;
  timeZone: string;
}

/** Subject and text. Times are in the site's zone. */
export function writeNotice(what: ToWrite): { subject: string; text: string } {
  switch (what.event.state) {
    case 'raised':
    case 'changed':
      return writeStanding(what);
    case 'cleared':
      return writeEnd(what, 'is over', 'It is over since');
    case 'withdrawn':
      return writeEnd(what, 'is taken back', 'Readings that came late show that it was not so. Taken back');
    default:
      return what.event.state satisfies never;
  }
}

function writeStanding({ event, last, notOver, nowMs, units, timeZone }: ToWrite): {
  subject: string;
  text: string;
} {
  const line = { ...last, ...event };
  const words = wordsFor(line);
  const { priority = 'soon', evidence = {} } = line;
  const soon = URGENCY_WORDS[urgencyOf({ ...line, priority, evidence })].instruction;
  const changed = notOver ? ', not over' : event.state === 'changed' ? ', changed' : '';
  const began = line.since === undefined ? '' : `It began ${moment(line.since, { timeZone, units, nowMs })}.`;
  const text = paragraphs(
    `${placeOf(line)}: ${words.title}${changed}. ${capital(soon)}.`,
    notOver ? 'It was told as over; readings that came late show that it still stands.' : '',
    [capital(sentence(line.why ?? '')), began].filter(Boolean).join('\n'),
    words.means,
    section('Likely causes', words.causes),
    section('First safe step', [words.firstStep], ''),
    section('Figures', figureLines(evidence, units)),
    section('When this can be wrong', [words.canBeWrong], ''),
    section('Be careful', [
      ...new Set([...words.cautions, CAUTIONS['only-watches'], CAUTIONS['local-rules']]),
    ]),
  );
  return { subject: oneLine(`${placeOf(line)}: ${words.title}${changed} (${soon})`), text };
}

function writeEnd(what: ToWrite, ends: string, sentenceStart: string): { subject: string; text: string } {
  const { event, last } = what;
  const words = wordsFor(last);
  const text = paragraphs(
    `${placeOf(last)}: ${words.title} ${ends}.`,
    `${sentenceStart} ${moment(event.at, what)}.`,
    last.why === undefined ? '' : `It was: ${sentence(last.why)}`,
    event.state === 'cleared' ? 'That it is over does not say that its cause is gone.' : '',
    CAUTIONS['only-watches'],
  );
  return { subject: oneLine(`${placeOf(last)}: ${words.title} ${ends}`), text };
}

/** The well, or the site where a whole site is meant; with the pump where the well has several. */
function placeOf(event: AlarmEvent): string {
  const place = event.well ?? event.site ?? event.node ?? 'a well';
  return event.pump === undefined || event.pump === 'p1' ? place : `${place}, pump ${event.pump.slice(1)}`;
}

function moment(at: string, how: { timeZone: string; units: UnitSystem; nowMs: number }): string {
  return momentWords(Date.parse(at), how.timeZone, how.units, how.nowMs);
}

function section(title: string, lines: readonly string[], bullet = '- '): string {
  return lines.length === 0 ? '' : [title, ...lines.map((line) => `${bullet}${line}`)].join('\n');
}

function paragraphs(...parts: string[]): string {
  return `${parts.filter((part) => part !== '').join('\n\n')}\n`;
}

function sentence(text: string): string {
  return text === '' || /[.!?]$/.test(text) ? text : `${text}.`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A subject is one line, whatever a name holds. */
function oneLine(text: string): string {
  return text.replaceAll(/\s+/g, ' ').trim();
}
