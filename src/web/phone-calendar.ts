/**
 * Which calendar a path of the door for phones means. The secret stands first, then the well, if it is of one alone:
 * `/SECRET/checks.ics`, `/SECRET/north-paddock/checks.ics`. A well that is gone, a secret that was taken away and a path that is nothing
 * look the same from outside.
 */
import { calendarText } from './calendar-answer.ts';
import type { WebDeps } from './deps.ts';

const PATH = /^\/([a-z2-7]{1,100})(?:\/([a-z0-9-]{1,40}))?\/checks\.ics$/;

export function calendarPath(secret: string, well: string | undefined): string {
  return `/${[secret, ...(well === undefined ? [] : [well]), 'checks.ics'].join('/')}`;
}

/** The calendar at this path, or undefined. */
export function phoneCalendar(deps: WebDeps, path: string): string | undefined {
  const [, secret, well] = PATH.exec(path) ?? [];
  if (secret === undefined || !deps.phones.opens(secret, well)) return undefined;
  if (well !== undefined && deps.live.well(well) === undefined) return undefined;
  return calendarText(deps, well);
}
