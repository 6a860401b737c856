/**
 * When a check was last done, and with what: from the check itself as people wrote it down, from a
 * water test, a precharge that somebody read, a calibration of a node. Each counts where it says
 * that somebody looked; a try that failed does not.
 */
import { omitUndefined } from '../../../shared/omit-undefined.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { parseQuantity } from '../../../shared/quantity/parse-quantity.ts';
import { DUE_WORDS, isDueKind } from '../../../shared/text/en/checks/due-words.ts';
import type { Card } from '../../core/domain/card.ts';
import { documentsOf, type Entry, type EntryOf } from '../../../shared/entries/entry.ts';
import type { CheckOutcome } from '../../../shared/entries/entry-fields.ts';

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
  entries: readonly Entry[];
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

function completionFromEntry(check: string, entry: Entry, timeZone: string): CheckCompletion | undefined {
  const { atMs, id, by } = entry;
  const base = {
    atMs,
    date: localDate(atMs, timeZone),
    id,
    documents: documentsOf(entry),
    ...(by !== undefined && { by }),
  };
  if (entry.kind === 'check' && entry.body.check === check) {
    const { outcome } = entry.body;
    return { ...base, outcome, completed: outcome !== 'not-done', ...measuredValues(check, entry.body) };
  }
  const alsoCounts =
    (check === 'water-test' && entry.kind === 'water-test') ||
    ((check === 'precharge' || check === 'static-level') &&
      entry.kind === 'reading' &&
      entry.body.what === check);
  return alsoCounts
    ? { ...base, outcome: 'right', completed: true, ...measuredValues(check, entry.body) }
    : undefined;
}

function measuredValues(
  check: string,
  { value, left, text }: Partial<EntryOf<'check'>['body']>,
): Partial<CheckCompletion> {
  const dimension = isDueKind(check) ? DUE_WORDS[check].value?.dimension : undefined;
  const si = (text: string | undefined): number | undefined => {
    const read = dimension === undefined || text === undefined ? undefined : parseQuantity(text, dimension);
    return read && 'si' in read ? read.si : undefined;
  };
  return omitUndefined({ value, asLeft: left, text, valueSi: si(value), asLeftSi: si(left) });
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
