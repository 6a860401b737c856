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
import { texts } from './texts.ts';

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
      return writeEnd(input, texts().cleared, texts().clearedAt);
    case 'withdrawn':
      return writeEnd(input, texts().withdrawn, texts().withdrawnAt);
    default:
      return input.event.state satisfies never;
  }
}

function writeActive({ event: line, reopened, nowMs, units, timeZone, names = {} }: NoticeInput): {
  subject: string;
  text: string;
} {
  const say = texts();
  const words = noticeWordsFor(line, names);
  const { priority = 'soon', evidence = {} } = line;
  const soon = URGENCY_WORDS[urgencyOf({ ...line, priority, evidence })].instruction;
  const change = reopened ? say.stillActive : line.state === 'changed' ? say.changed : '';
  const title = [words.title, change].filter(Boolean).join(', ');
  const began =
    line.since === undefined ? '' : say.since(formatMoment(line.since, { timeZone, units, nowMs }));
  const text = paragraphs(
    [`${placeOf(line)}: ${title}. ${capitalize(soon)}.`, ...cardNameLines(names)].join('\n'),
    reopened ? say.reopened : '',
    [capitalize(endSentence(whyText(line, units))), began].filter(Boolean).join('\n'),
    words.means,
    section(say.likelyCauses, words.causes),
    section(say.firstSafeStep, [words.firstStep], ''),
    section(say.figures, figureLines(evidence, units)),
    section(say.canBeWrong, [words.canBeWrong], ''),
    section(say.cautions, [
      ...new Set([...words.cautions, CAUTIONS['only-watches'], CAUTIONS['local-rules']]),
    ]),
  );
  return { subject: oneLine(say.urgent(placeOf(line), title, soon)), text };
}

function writeEnd(
  input: NoticeInput,
  subject: (place: string, title: string) => string,
  endedAt: (moment: string) => string,
): { subject: string; text: string } {
  const { event } = input;
  const { title } = noticeWordsFor(event);
  const why = whyText(event, input.units);
  const text = paragraphs(
    `${placeOf(event)}: ${title}.`,
    endedAt(formatMoment(event.at, input)),
    why === '' ? '' : texts().reasonWas(endSentence(why)),
    event.state === 'cleared' ? texts().causeMayRemain : '',
    CAUTIONS['only-watches'],
  );
  return { subject: oneLine(subject(placeOf(event), title)), text };
}

/** The well, or the site where a whole site is meant; with the pump where the well has several. */
function placeOf(event: AlarmEvent): string {
  const place = event.well ?? event.site ?? event.node ?? texts().someWell;
  return event.pump === undefined || event.pump === 'p1' ? place : texts().pump(place, event.pump.slice(1));
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
