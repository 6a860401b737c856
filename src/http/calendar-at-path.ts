/**
 * Which calendar a path of the door for phones means. The secret stands first, then the well, if it
 * is of one alone: `/SECRET/checks.ics`, `/SECRET/north-paddock/checks.ics`. A well that is gone, a
 * secret that was taken away and a path that is nothing look the same from outside.
 */
import { MINUTE_MS } from '../../shared/units/duration.ts';
import { calendarBody } from './answers/calendar-answer.ts';
import type { WebDeps } from './deps.ts';

const PATH = /^\/([a-z2-7]{1,100})(?:\/([a-z0-9-]{1,40}))?\/checks\.ics$/;

/**
 * A calendar is made anew this much later at the earliest: that of 200 wells takes a third of a
 * second in which nothing else is done, and whoever has the address may ask as often as they like.
 * No phone looks every minute.
 */
const MAX_AGE_MS = MINUTE_MS;

export function calendarPath(secret: string, well: string | undefined): string {
  return `/${[secret, ...(well === undefined ? [] : [well]), 'checks.ics'].join('/')}`;
}

/** Answers with the calendar at a path, or undefined. */
export function calendarAtPath(deps: WebDeps): (path: string) => Promise<string | undefined> {
  const made = new Map<string | undefined, { atMs: number; text: Promise<string> }>();
  return async (path) => {
    const [, secret, well] = PATH.exec(path) ?? [];
    if (secret === undefined || !(await deps.calendarAccess.isValidSecret(secret, well))) return undefined;
    if (well !== undefined && (await deps.live.well(well)) === undefined) return undefined;
    const nowMs = deps.now();
    // A clock that was set back does not keep an old one.
    for (const [key, { atMs }] of made) if (nowMs - atMs >= MAX_AGE_MS || nowMs < atMs) made.delete(key);
    const text = made.get(well)?.text ?? calendarBody(deps, well);
    if (!made.has(well)) made.set(well, { atMs: nowMs, text });
    try {
      return await text;
    } catch (error) {
      made.delete(well);
      throw error;
    }
  };
}
