/** Which page an address means, from its part after `#`: it works from a server and from a folder alike. */
import { ALARM_KINDS, type AlarmKind } from '../shared/words/kinds.ts';
import { PARTS, type Part } from '../shared/words/part-words.ts';

/** Pages of a well's book by the last part of their address, each with its title; what stands on them: pages/book-pages.tsx. */
export const BOOK_TITLES = {
  card: 'Card',
  visit: 'Visits',
  readings: 'Readings',
  checks: 'Checks',
  water: 'Water tests',
  labels: 'Labels',
  papers: 'Papers',
  packet: 'Hand-over',
} as const;
export type BookWhat = keyof typeof BOOK_TITLES;

export type Page =
  | { at: 'wells' }
  | { at: 'well'; well: string }
  | { at: 'book'; well: string; what: BookWhat }
  | { at: 'alarm'; id: string }
  | { at: 'parts' }
  | { at: 'part'; part: Part }
  | { at: 'new-well' }
  | { at: 'due' }
  | { at: 'nodes' }
  | { at: 'refused' }
  | { at: 'nowhere' };

export function pageOf(hash: string): Page {
  const [first = '', second, ...rest] = hash.replace(/^#\/?/, '').split('/');
  if (first === '' && second === undefined) return { at: 'wells' };
  const what = rest[0];
  if (first === 'well' && second && rest.length === 1 && isBookWhat(what))
    return { at: 'book', well: decode(second), what };
  if (rest.length > 0) return { at: 'nowhere' };
  if (first === 'well' && second) return { at: 'well', well: decode(second) };
  if (first === 'alarm' && second) return { at: 'alarm', id: decode(second) };
  const part = first === 'parts' ? PARTS.find((one) => one === second) : undefined;
  if (part) return { at: 'part', part };
  if (second !== undefined) return { at: 'nowhere' };
  return isPlace(first) ? { at: first } : { at: 'nowhere' };
}

/** Pages without a part of their own in the address. */
function isPlace(text: string): text is 'nodes' | 'refused' | 'parts' | 'new-well' | 'due' {
  return ['nodes', 'refused', 'parts', 'new-well', 'due'].includes(text);
}

function isBookWhat(text: string | undefined): text is BookWhat {
  return text !== undefined && Object.hasOwn(BOOK_TITLES, text);
}

function decode(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

export function wellAddress(well: string): string {
  return `#/well/${encodeURIComponent(well)}`;
}

export function bookAddress(well: string, what: BookWhat): string {
  return `${wellAddress(well)}/${what}`;
}

export const NEW_WELL_ADDRESS = '#/new-well';

export function alarmAddress(id: string): string {
  return `#/alarm/${encodeURIComponent(id)}`;
}

export function partAddress(part: Part): string {
  return `#/parts/${part}`;
}

/** What an alarm's id says by itself: the well or site that it is of, its kind, and when it began. Undefined where it is no such id. */
export function alarmIdParts(id: string): { place: string; alarm: AlarmKind; sinceMs: number } | undefined {
  const [place, , kind, since] = id.split('/');
  const alarm = ALARM_KINDS.find((one) => one === kind);
  const sinceMs = Number(since);
  return place && alarm && Number.isFinite(sinceMs) ? { place, alarm, sinceMs } : undefined;
}
