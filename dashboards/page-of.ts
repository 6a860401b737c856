/** Which page an address means, from its part after `#`: it works from a server and from a folder alike. */
import { ALARM_KINDS, type AlarmKind } from '../shared/words/kinds.ts';

export type Page =
  | { at: 'wells' }
  | { at: 'well'; well: string }
  | { at: 'alarm'; id: string }
  | { at: 'nodes' }
  | { at: 'refused' }
  | { at: 'nowhere' };

export function pageOf(hash: string): Page {
  const [first = '', second, ...rest] = hash.replace(/^#\/?/, '').split('/');
  if (first === '' && second === undefined) return { at: 'wells' };
  if (rest.length > 0) return { at: 'nowhere' };
  if (first === 'well' && second) return { at: 'well', well: decode(second) };
  if (first === 'alarm' && second) return { at: 'alarm', id: decode(second) };
  if (second !== undefined) return { at: 'nowhere' };
  return first === 'nodes' || first === 'refused' ? { at: first } : { at: 'nowhere' };
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

export function alarmAddress(id: string): string {
  return `#/alarm/${encodeURIComponent(id)}`;
}

/** What an alarm's id says by itself: the well or site that it is of, its kind, and when it began. Undefined where it is no such id. */
export function alarmIdParts(id: string): { place: string; alarm: AlarmKind; sinceMs: number } | undefined {
  const [place, , kind, since] = id.split('/');
  const alarm = ALARM_KINDS.find((one) => one === kind);
  const sinceMs = Number(since);
  return place && alarm && Number.isFinite(sinceMs) ? { place, alarm, sinceMs } : undefined;
}
