/**
 * When a check was last done, and with what: from the check itself as people wrote it down, from a water test, a precharge that somebody
 * read, a calibration of a node. Each counts where it says that somebody looked; a try that failed does not.
 */
import { localDate } from '../../shared/api/time-words.ts';
import { parseQuantity } from '../../shared/quantity/parse-quantity.ts';
import { DUE_WORDS, isDueKind } from '../../shared/words/due-words.ts';
import type { Card } from '../card/card.ts';
import type { KeptEntry } from './entry.ts';
import { CHECK_OUTCOMES, type CheckOutcome } from './read-check.ts';

export interface Done {
  atMs: number;
  /** ISO date in the well's own time zone. */
  on: string;
  outcome: CheckOutcome;
  /** False where somebody came and could not do it: it is due as before. */
  counts: boolean;
  by?: string;
  text?: string;
  /** As it was written. */
  value?: string;
  left?: string;
  /** In SI, where the check measures something. */
  valueSi?: number;
  leftSi?: number;
  papers: string[];
  /** The entry; absent for what is no entry (a calibration). */
  id?: string;
}

interface Known {
  card: Card;
  entries: readonly KeptEntry[];
  acts: readonly { kind: string; atMs: number; node?: string }[];
  nodes: readonly string[];
}

/** The last time; of one that counts, where there is one. */
export function doneOf(check: string, known: Known): Done | undefined {
  const all = timesDone(check, known);
  return all.findLast(({ counts }) => counts) ?? all.at(-1);
}

/** All times, oldest first. */
export function timesDone(check: string, known: Known): Done[] {
  const { entries, card } = known;
  const found = entries.flatMap((entry) => fromEntry(check, entry, card.timeZone) ?? []);
  return [...found, ...fromActs(check, known)].toSorted((a, b) => a.atMs - b.atMs);
}

function fromEntry(check: string, entry: KeptEntry, timeZone: string): Done | undefined {
  const { atMs, body, id, by } = entry;
  const base = {
    atMs,
    on: localDate(atMs, timeZone),
    id,
    papers: listAt(body, 'papers'),
    ...(by !== undefined && { by }),
  };
  if (entry.kind === 'check' && body['check'] === check) {
    const outcome = CHECK_OUTCOMES.find((one) => one === body['outcome']) ?? 'right';
    return { ...base, outcome, counts: outcome !== 'not-done', ...figures(check, body) };
  }
  const alsoCounts =
    (check === 'water-test' && entry.kind === 'water-test') ||
    (check === 'precharge' && entry.kind === 'reading' && body['what'] === 'precharge');
  return alsoCounts ? { ...base, outcome: 'right', counts: true, ...figures(check, body) } : undefined;
}

function figures(check: string, body: KeptEntry['body']): Partial<Done> {
  const dimension = isDueKind(check) ? DUE_WORDS[check].value?.dimension : undefined;
  const si = (text: string | undefined): number | undefined => {
    const read = dimension === undefined || text === undefined ? undefined : parseQuantity(text, dimension);
    return read && 'si' in read ? read.si : undefined;
  };
  const [value, left, text] = ['value', 'left', 'text'].map((key) => textAt(body, key));
  const [valueSi, leftSi] = [si(value), si(left)];
  return {
    ...(value !== undefined && { value }),
    ...(left !== undefined && { left }),
    ...(text !== undefined && { text }),
    ...(valueSi !== undefined && { valueSi }),
    ...(leftSi !== undefined && { leftSi }),
  };
}

/** A calibrated node was held against an instrument. */
function fromActs(check: string, { acts, nodes, card }: Known): Done[] {
  if (check !== 'node-calibration') return [];
  return acts
    .filter(({ kind, node }) => kind === 'calibrated' && node !== undefined && nodes.includes(node))
    .map(({ atMs }) => ({
      atMs,
      on: localDate(atMs, card.timeZone),
      outcome: 'put-right',
      counts: true,
      papers: [],
    }));
}

function textAt(body: KeptEntry['body'], key: string): string | undefined {
  const value = body[key];
  return typeof value === 'string' ? value : undefined;
}

function listAt(body: KeptEntry['body'], key: string): string[] {
  const value = body[key];
  return Array.isArray(value) ? value.filter((one) => typeof one === 'string') : [];
}
