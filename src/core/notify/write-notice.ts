/**
 * The words of one notice: a subject that says well, alarm and how soon to act, and a text that
 * says why, what it likely is, the first safe step, and what to be careful of, with figures in
 * people's units. The wording of alarms and causes is shared with the pages (./notice-words.ts).
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import { momentWords } from '../../../shared/text/en/time-words.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { cardNameLines, type CardNames } from '../../../shared/text/en/card-names.ts';
import { figureLines } from '../../../shared/text/en/figures.ts';
import { whyText } from '../../../shared/text/en/reasons/why.ts';
import { URGENCY_WORDS, urgencyOf } from '../../../shared/text/en/alarms/urgency.ts';
import { noticeWordsFor } from './notice-words.ts';

export interface NoticeInput {
  /** The line that was said, over the last raised or changed one. */
  event: AlarmEvent;
  /** It was told as over, and is not. */
  reopened?: boolean;
  nowMs: number;
  units: UnitSystem;
  timeZone: string;
  /** Whom to call and where to switch off, as far as the card knows. */
  names?: CardNames;
}

/** Subject and text. Times are in the site's zone. */
export function writeNotice(input: NoticeInput): { subject: string; text: string } {
  switch (input.event.state) {
    case 'raised':
    case 'changed':
      return writeActive(input);
    case 'cleared':
      return writeEnd(input, 'is over', 'It is over since');
    case 'withdrawn':
      return writeEnd(input, 'is taken back', 'Readings that came late show that it was not so. Taken back');
    default:
      return input.event.state satisfies never;
  }
}

function writeActive({ event: line, reopened, nowMs, units, timeZone, names = {} }: NoticeInput): {
  subject: string;
  text: string;
} {
  const words = noticeWordsFor(line, names);
  const { priority = 'soon', evidence = {} } = line;
  const soon = URGENCY_WORDS[urgencyOf({ ...line, priority, evidence })].instruction;
  const changed = reopened ? ', not over' : line.state === 'changed' ? ', changed' : '';
  const began =
    line.since === undefined ? '' : `It began ${formatMoment(line.since, { timeZone, units, nowMs })}.`;
  const text = paragraphs(
    [`${placeOf(line)}: ${words.title}${changed}. ${capitalize(soon)}.`, ...cardNameLines(names)].join('\n'),
    reopened ? 'It was told as over; readings that came late show that it still stands.' : '',
    [capitalize(endSentence(whyText(line, units))), began].filter(Boolean).join('\n'),
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

function writeEnd(
  input: NoticeInput,
  endText: string,
  sentenceStart: string,
): { subject: string; text: string } {
  const { event } = input;
  const words = noticeWordsFor(event);
  const why = whyText(event, input.units);
  const text = paragraphs(
    `${placeOf(event)}: ${words.title} ${endText}.`,
    `${sentenceStart} ${formatMoment(event.at, input)}.`,
    why === '' ? '' : `It was: ${endSentence(why)}`,
    event.state === 'cleared' ? 'That it is over does not say that its cause is gone.' : '',
    CAUTIONS['only-watches'],
  );
  return { subject: oneLine(`${placeOf(event)}: ${words.title} ${endText}`), text };
}

/** The well, or the site where a whole site is meant; with the pump where the well has several. */
function placeOf(event: AlarmEvent): string {
  const place = event.well ?? event.site ?? event.node ?? 'a well';
  return event.pump === undefined || event.pump === 'p1' ? place : `${place}, pump ${event.pump.slice(1)}`;
}

function formatMoment(at: string, options: { timeZone: string; units: UnitSystem; nowMs: number }): string {
  return momentWords(Date.parse(at), options.timeZone, options.units, options.nowMs);
}

function section(title: string, lines: readonly string[], bullet = '- '): string {
  return lines.length === 0 ? '' : [title, ...lines.map((line) => `${bullet}${line}`)].join('\n');
}

function paragraphs(...parts: string[]): string {
  return `${parts.filter((part) => part !== '').join('\n\n')}\n`;
}

function endSentence(text: string): string {
  return text === '' || /[.!?]$/.test(text) ? text : `${text}.`;
}

function capitalize(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A subject is one line, whatever a name holds. */
function oneLine(text: string): string {
  return text.replaceAll(/\s+/g, ' ').trim();
}
