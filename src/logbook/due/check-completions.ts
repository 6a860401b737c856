/**
 * When a check was last done, and with what: from the check itself as people wrote it down, from a
 * water test, a precharge that somebody read, a calibration of a node. Each counts where it says
 * that somebody looked; a try that failed does not.
 */
import { localDate } from '../../../shared/text/en/time-words.ts';
import { parseQuantity } from '../../../shared/quantity/parse-quantity.ts';
import { DUE_WORDS, isDueKind } from '../../../shared/text/en/checks/due-words.ts';
import type { Card } from '../../core/domain/card.ts';
import type { StoredEntry } from '../entries/entry.ts';
import { CHECK_OUTCOMES, type CheckOutcome } from '../../../shared/entries/entry-fields.ts';

export interface CheckCompletion {
  atMs: number;
  /** ISO date in the well's own time zone. */
  date: string;
  outcome: CheckOutcome;
  /** False where somebody came and could not do it: it is due as before. */
  completed: boolean;
  by?: string;
  text?: string;
  /** As it was written. */
  value?: string;
  asLeft?: string;
  /** In SI, where the check measures something. */
  valueSi?: number;
  asLeftSi?: number;
  documents: string[];
  /** The entry; absent for what is no entry (a calibration). */
  id?: string;
}

interface CompletionInput {
  card: Card;
  entries: readonly StoredEntry[];
  acts: readonly { kind: string; atMs: number; node?: string }[];
  nodes: readonly string[];
}

/** The last time; of one that counts, where there is one. */
export function lastCompletion(check: string, input: CompletionInput): CheckCompletion | undefined {
  const all = checkCompletions(check, input);
  return all.findLast(({ completed }) => completed) ?? all.at(-1);
}

/** All times, oldest first. */
export function checkCompletions(check: string, input: CompletionInput): CheckCompletion[] {
  const { entries, card } = input;
  const found = entries.flatMap((entry) => completionFromEntry(check, entry, card.timeZone) ?? []);
  return [...found, ...completionsFromActs(check, input)].toSorted((a, b) => a.atMs - b.atMs);
}

function completionFromEntry(
  check: string,
  entry: StoredEntry,
  timeZone: string,
): CheckCompletion | undefined {
  const { atMs, body, id, by } = entry;
  const base = {
    atMs,
    date: localDate(atMs, timeZone),
    id,
    documents: listAt(body, 'papers'),
    ...(by !== undefined && { by }),
  };
  if (entry.kind === 'check' && body['check'] === check) {
    const outcome = CHECK_OUTCOMES.find((one) => one === body['outcome']) ?? 'right';
    return { ...base, outcome, completed: outcome !== 'not-done', ...measuredValues(check, body) };
  }
  const alsoCounts =
    (check === 'water-test' && entry.kind === 'water-test') ||
    (check === 'precharge' && entry.kind === 'reading' && body['what'] === 'precharge');
  return alsoCounts
    ? { ...base, outcome: 'right', completed: true, ...measuredValues(check, body) }
    : undefined;
}

function measuredValues(check: string, body: StoredEntry['body']): Partial<CheckCompletion> {
  const dimension = isDueKind(check) ? DUE_WORDS[check].value?.dimension : undefined;
  const si = (text: string | undefined): number | undefined => {
    const read = dimension === undefined || text === undefined ? undefined : parseQuantity(text, dimension);
    return read && 'si' in read ? read.si : undefined;
  };
  const [value, left, text] = ['value', 'left', 'text'].map((key) => textAt(body, key));
  const [valueSi, leftSi] = [si(value), si(left)];
  return {
    ...(value !== undefined && { value }),
    ...(left !== undefined && { asLeft: left }),
    ...(text !== undefined && { text }),
    ...(valueSi !== undefined && { valueSi }),
    ...(leftSi !== undefined && { asLeftSi: leftSi }),
  };
}

/** A calibrated node was held against an instrument. */
function completionsFromActs(check: string, { acts, nodes, card }: CompletionInput): CheckCompletion[] {
  if (check !== 'node-calibration') return [];
  return acts
    .filter(({ kind, node }) => kind === 'calibrated' && node !== undefined && nodes.includes(node))
    .map(({ atMs }) => ({
      atMs,
      date: localDate(atMs, card.timeZone),
      outcome: 'put-right',
      completed: true,
      documents: [],
    }));
}

function textAt(body: StoredEntry['body'], key: string): string | undefined {
  const value = body[key];
  return typeof value === 'string' ? value : undefined;
}

function listAt(body: StoredEntry['body'], key: string): string[] {
  const value = body[key];
  return Array.isArray(value) ? value.filter((one) => typeof one === 'string') : [];
}
