/** The calendar of what is due, of all wells or of one: what a phone subscribes to. */
import { localDate } from '../../../shared/text/en/time-words.ts';
import { calendarFeed } from '../../logbook/due/calendar.ts';
import { dueChecks } from '../../logbook/due/due.ts';
import { dueEvents } from '../../logbook/due/due-events.ts';
import type { WebDeps } from '../deps.ts';
import { mapInSlices } from '../in-slices.ts';
import { selectWells } from './due-answers.ts';
import { loadDueContext, dueInputFor } from './due-input.ts';
import { texts } from '../texts.ts';

/** All as text/calendar. @throws ProblemError 404. */
export async function calendarBody(deps: WebDeps, well: string | undefined): Promise<string> {
  const around = await loadDueContext(deps, well);
  const selected = await selectWells(deps, well === undefined ? {} : { well });
  const wells = await mapInSlices(selected, async (live) => {
    const input = await dueInputFor(deps, live, around);
    const today = localDate(input.nowMs, input.card.timeZone);
    return { ...input, today, checks: dueChecks(input) };
  });
  return calendarFeed(
    well === undefined ? texts().calendarOfWells : texts().calendarOfWell(well),
    dueEvents(wells),
  );
}
