/**
 * Which page an address means, from its part after `#`: it works from a server and from a folder
 * alike.
 */
import { ALARM_KINDS, type AlarmKind } from '../shared/text/en/alarms/kinds.ts';
import { PARTS, type Part } from '../shared/text/en/parts/part-words.ts';

/**
 * Pages of a well's logbook by the last part of their address; what stands on them:
 * pages/logbook/logbook-pages.tsx.
 */
const LOGBOOK_PAGES = [
  'card',
  'visit',
  'readings',
  'checks',
  'water',
  'figures',
  'yield',
  'labels',
  'documents',
  'export',
] as const;
export type LogbookPage = (typeof LOGBOOK_PAGES)[number];

export type Page =
  | { at: 'wells' }
  | { at: 'well'; well: string }
  | { at: 'logbook'; well: string; logbookPage: LogbookPage }
  | { at: 'alarm'; id: string }
  | { at: 'parts' }
  | { at: 'part'; part: Part }
  | { at: 'new-well' }
  | { at: 'due' }
  | { at: 'nodes' }
  | { at: 'refused' }
  | { at: 'nowhere' };

export function parsePage(hash: string): Page {
  const [first = '', second, ...rest] = hash.replace(/^#\/?/, '').split('/');
  if (first === '' && second === undefined) return { at: 'wells' };
  const what = rest[0];
  if (first === 'well' && second && rest.length === 1 && isLogbookPage(what))
    return { at: 'logbook', well: decode(second), logbookPage: what };
  if (rest.length > 0) return { at: 'nowhere' };
  if (first === 'well' && second) return { at: 'well', well: decode(second) };
  if (first === 'alarm' && second) return { at: 'alarm', id: decode(second) };
  const part = first === 'parts' ? PARTS.find((one) => one === second) : undefined;
  if (part) return { at: 'part', part };
  if (second !== undefined) return { at: 'nowhere' };
  return isTopPage(first) ? { at: first } : { at: 'nowhere' };
}

/** Pages without a part of their own in the address. */
function isTopPage(text: string): text is 'nodes' | 'refused' | 'parts' | 'new-well' | 'due' {
  return ['nodes', 'refused', 'parts', 'new-well', 'due'].includes(text);
}

function isLogbookPage(text: string | undefined): text is LogbookPage {
  return LOGBOOK_PAGES.some((one) => one === text);
}

function decode(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

export function wellUrl(well: string): string {
  return `#/well/${encodeURIComponent(well)}`;
}

export function logbookUrl(well: string, what: LogbookPage): string {
  return `${wellUrl(well)}/${what}`;
}

export const NEW_WELL_URL = '#/new-well';

export function alarmUrl(id: string): string {
  return `#/alarm/${encodeURIComponent(id)}`;
}

export function partUrl(part: Part): string {
  return `#/parts/${part}`;
}

/**
 * What an alarm's id says by itself: the well or site that it is of, its kind, and when it began.
 * Undefined where it is no such id.
 */
export function alarmIdParts(id: string): { place: string; alarm: AlarmKind; sinceMs: number } | undefined {
  const [place, , kind, since] = id.split('/');
  const alarm = ALARM_KINDS.find((one) => one === kind);
  const sinceMs = Number(since);
  return place && alarm && Number.isFinite(sinceMs) ? { place, alarm, sinceMs } : undefined;
}
