/** The address at which phones read the calendar: told, made, made anew, taken away. */
import type { Answer } from '../../shared/api/routes.ts';
import type { Ask } from './ask.ts';
import type { WebDeps } from './deps.ts';
import { calendarPath } from './phone-calendar.ts';
import { ProblemError } from './problem.ts';
import { wellNamed } from './well-answers.ts';

/** @throws ProblemError 404. */
export function calendarAddress(deps: WebDeps, well: string | undefined): Answer<'calendarAddress'> {
  if (well !== undefined) wellNamed(deps, well);
  const door = deps.phones.door();
  if (door.is === 'closed') return { door };
  const { port, ...open } = door;
  const secret = deps.phones.secret(well);
  if (!secret) return { door: open };
  const path = calendarPath(secret.text, well);
  return {
    door: open,
    address: {
      madeMs: secret.madeMs,
      urls: open.hosts.map((host) => `http://${inUrl(host)}:${port}${path}`),
    },
  };
}

/** @throws ProblemError 404; 409 where no phone could reach the address. */
export function setCalendarAddress(
  deps: WebDeps,
  { body }: Ask<'setCalendarAddress'>,
): Answer<'setCalendarAddress'> {
  const { well, want } = body;
  if (well !== undefined) wellNamed(deps, well);
  const { phones } = deps;
  if (want === 'none') phones.end(well);
  else if (phones.door().is === 'closed')
    throw new ProblemError(409, 'Cannot make an address for phones: the server answers only this computer.');
  else if (want === 'new' || !phones.secret(well)) phones.renew(well);
  return calendarAddress(deps, well);
}

function inUrl(host: string): string {
  return host.includes(':') ? `[${host}]` : host;
}
