/** `stillwell due`: what is due on the wells of a running server, a check written down as done, days set for what was never written down. */
import { isIsoDate } from '../../core/domain/rfc3339.ts';
import { EXIT, UsageError, type Command, type Io } from '../command.ts';
import { writeDone } from './due-done.ts';
import { printDue } from './due-list.ts';
import { planDue } from './due-plan.ts';
import { writeTable } from './due-table.ts';
import { addressRequest, printAddress } from './due-subscribe.ts';
import { readOptions, readWhole } from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import { SERVER_HELP, rejectExtra, actorOf, WRITE_HELP, WRITE_OPTIONS } from '../logbook/write-entry.ts';

const OPTIONS = {
  ...WRITE_OPTIONS,
  until: { type: 'string' },
  days: { type: 'string' },
  site: { type: 'string' },
  was: { type: 'string' },
  value: { type: 'string' },
  left: { type: 'string' },
  table: { type: 'string' },
  'dry-run': { type: 'boolean' },
  from: { type: 'string' },
  'wells-a-day': { type: 'string' },
  write: { type: 'boolean' },
  subscribe: { type: 'boolean' },
  'new-address': { type: 'boolean' },
  'no-address': { type: 'boolean' },
} as const;

const WELLS_A_DAY_RANGE = { from: 1, to: 100 };
const DEFAULT_WELLS_A_DAY = 3;

export const dueCommand: Command = {
  name: 'due',
  usage:
    'due [WELL] [--until DATE | --days N] [--site SITE] [--json] | due [WELL] --subscribe | due done WELL CHECK | due plan',
  about:
    'What is due on your wells: checks, water tests, what you planned yourself; and one written down as done.',
  more: `The server must be running. Without a day it lists a month ahead; what is overdue always stands there. What nobody wrote down
the last time of stands apart, with a proposed day: nobody knows whether it is late. Checks of a well that is laid up or out of
service wait until it is back.

  --until DATE      up to this day (2027-03-31)
  --days N          up to so many days from today
  --site SITE       wells of one site

  --subscribe       the address for phones on the farm's network, of all wells or of one, to subscribe to in their calendar
  --new-address     make a new one; the one before opens nothing any more
  --no-address      take it away

  done WELL CHECK   write down a check as done; CHECK is called as the list calls it (precharge, relief-valve …)
  --was OUTCOME     right (unless given), put-right, not-right or not-done
  --value "36 psi"  as found; --left "38 psi" as left
${WRITE_HELP}
  --table FILE      many at once, from a table (.csv) with the columns well, check, on, and as far as it has them was, value,
                    left, note, by; nothing is written while a row is wrong, and --dry-run only says what would be

  plan              days for what was never written down: shown, and set with --write
  --from DATE       the first of them (tomorrow unless given); Saturdays and Sundays are left out
  --wells-a-day N   so many wells a day (${DEFAULT_WELLS_A_DAY} unless given), those of one site one after the other

${SERVER_HELP}`,
  async run(args, io) {
    const { flags, names } = readOptions(args, OPTIONS);
    const api = serverApi(flags.server);
    const [first, well, check, ...rest] = names;
    if (first === 'done') {
      if (flags.table !== undefined) {
        rejectExtra(names.slice(1));
        return writeTable(io, api, { file: flags.table, by: flags.by, dryRun: flags['dry-run'] === true });
      }
      if (well === undefined || check === undefined || rest.length > 0)
        throw new UsageError('Two names are expected: stillwell due done WELL CHECK, or --table FILE');
      return writeDone(io, api, { ...flags, well, check });
    }
    if (first === 'plan') {
      rejectExtra(names.slice(1));
      const { site, from, json = false, write = false } = flags;
      const wellsADay =
        readWhole('wells-a-day', flags['wells-a-day'], WELLS_A_DAY_RANGE) ?? DEFAULT_WELLS_A_DAY;
      if (from !== undefined && !isIsoDate(from))
        throw new UsageError(`Cannot read --from: a day of the calendar is expected: ${from}`);
      return planDue(io, api, { site, from, wellsADay, json, write, actor: actorOf(flags, io) });
    }
    if (well !== undefined) throw new UsageError(`Cannot read "${well}": one well at most is expected`);
    const want = addressRequest(flags);
    if (want !== undefined) return printAddress(io, api, { well: first, want });
    return list(io, api, { ...flags, well: first });
  },
};

interface ListOptions {
  well: string | undefined;
  until?: string | undefined;
  days?: string | undefined;
  site?: string | undefined;
  json?: boolean | undefined;
}

async function list(io: Io, api: ServerApi, { well, until, days, site, json }: ListOptions): Promise<number> {
  if (until !== undefined && days !== undefined)
    throw new UsageError('Cannot list: --until and --days say the same thing; give one of them');
  const query = Object.entries({ until, days, site, well }).flatMap(([key, value]) =>
    value === undefined ? [] : [[key, value] as const],
  );
  const answer = await api.get('due', Object.fromEntries(query));
  if (json === true)
    for (const row of [...answer.due, ...answer.notRecorded, ...answer.onHold]) io.out(JSON.stringify(row));
  else printDue(io, answer);
  return EXIT.ok;
}
