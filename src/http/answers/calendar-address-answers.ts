/** The address at which phones read the calendar: told, made, made anew, taken away. */
import type { Answer } from '../../../shared/api/routes.ts';
import type { ApiRequest } from '../api-request.ts';
import type { WebDeps } from '../deps.ts';
import { calendarPath } from '../calendar-at-path.ts';
import { ProblemError } from '../problem.ts';
import { requireWell } from './well-answers.ts';
import { texts } from '../texts.ts';

/** @throws ProblemError 404. */
export async function calendarAddress(
  deps: WebDeps,
  well: string | undefined,
): Promise<Answer<'calendarAddress'>> {
  if (well !== undefined) await requireWell(deps, well);
  const state = deps.calendarAccess.serverState();
  if (state.is === 'closed')
    return {
      server: state,
      ...(deps.commandOptions !== undefined && { commandOptions: deps.commandOptions }),
    };
  const { port, ...open } = state;
  const secret = await deps.calendarAccess.secret(well);
  if (!secret) return { server: open };
  const path = calendarPath(secret.text, well);
  return {
    server: open,
    address: {
      createdMs: secret.createdMs,
      urls: open.hosts.map((host) => `http://${urlHost(host)}:${port}${path}`),
    },
  };
}

/** @throws ProblemError 404; 409 where no phone could reach the address. */
export async function setCalendarAddress(
  deps: WebDeps,
  { body }: ApiRequest<'setCalendarAddress'>,
): Promise<Answer<'setCalendarAddress'>> {
  const { well, action } = body;
  if (well !== undefined) await requireWell(deps, well);
  const { calendarAccess } = deps;
  if (action === 'remove') await calendarAccess.revoke(well);
  else if (calendarAccess.serverState().is === 'closed')
    throw new ProblemError(409, texts().noAddressForPhones);
  else if (action === 'renew') await calendarAccess.renew(well);
  else await calendarAccess.ensure(well);
  return await calendarAddress(deps, well);
}

function urlHost(host: string): string {
  return host.includes(':') ? `[${host}]` : host;
}
