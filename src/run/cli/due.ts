/** `stillwell due`: what is due on the wells of a running server, and a check written down as done. */
import type { DueRowAnswer } from '../../../shared/api/due.ts';
import { printQuantity } from '../../../shared/quantity/print-quantity.ts';
import { EXIT, Misuse, type Command, type Io } from './command.ts';
import { readOptions } from './options.ts';
import { serverApi, USUAL_SERVER, type ServerApi } from './server-api.ts';

const OPTIONS = {
  server: { type: 'string' },
  until: { type: 'string' },
  days: { type: 'string' },
  site: { type: 'string' },
  json: { type: 'boolean' },
  was: { type: 'string' },
  value: { type: 'string' },
  left: { type: 'string' },
  on: { type: 'string' },
  text: { type: 'string' },
  by: { type: 'string' },
} as const;

export const dueCommand: Command = {
  name: 'due',
  usage: 'due [WELL] [--until DATE | --days N] [--site SITE] [--json] | due done WELL CHECK',
  about:
    'What is due on your wells: checks, water tests, what you planned yourself; and one written down as done.',
  more: `The server must be running. Without a day it lists a month ahead; what is overdue always stands there.

  --until DATE      up to this day (2027-03-31)
  --days N          up to so many days from today
  --site SITE       wells of one site
  --json            one JSON object a line, for other programs

  done WELL CHECK   write down a check as done; CHECK is called as the list calls it (precharge, relief-valve …)
  --was OUTCOME     right (unless given), put-right, not-right or not-done
  --value "36 psi"  as found; --left "38 psi" as left
  --on DATE         the day on which it was done (today unless given)
  --text REMARK     a remark
  --by NAME         who did it (your name on this computer unless given)

  --server ADDRESS  the running server (${USUAL_SERVER} unless given)`,
  async run(args, io) {
    const { flags, names } = readOptions(args, OPTIONS);
    const api = serverApi(flags.server);
    const [first, well, check, ...rest] = names;
    if (first === 'done') {
      if (well === undefined || check === undefined || rest.length > 0)
        throw new Misuse('Two names are expected: stillwell due done WELL CHECK');
      return writeDone(io, api, { well, check, flags });
    }
    if (well !== undefined) throw new Misuse(`Cannot read "${well}": one well at most is expected`);
    const { until, days, site } = flags;
    if (until !== undefined && days !== undefined)
      throw new Misuse('Cannot list: --until and --days say the same thing; give one of them');
    const asked = Object.entries({ until, days, site, well: first }).flatMap(([key, value]) =>
      value === undefined ? [] : [[key, value] as const],
    );
    const answer = await api.ask('due', Object.fromEntries(asked));
    if (flags.json === true) for (const row of answer.due) io.out(JSON.stringify(row));
    else printRows(io, answer.due, { until: answer.until, wells: answer.wells });
    return EXIT.ok;
  },
};

function printRows(io: Io, rows: readonly DueRowAnswer[], of: { until: string; wells: number }): void {
  const wide = (key: 'well' | 'check'): number => Math.max(0, ...rows.map((row) => row[key].length));
  const [well, check] = [wide('well'), wide('check')];
  for (const row of rows)
    io.out(
      [
        row.on ?? '',
        lateWords(row).padEnd(13),
        row.well.padEnd(well),
        row.check.padEnd(check),
        row.title + targetWords(row),
      ].join('  '),
    );
  const late = rows.filter(({ state }) => state === 'overdue').length;
  io.out(
    `${rows.length} due by ${of.until} on ${of.wells} ${of.wells === 1 ? 'well' : 'wells'}; ${late} overdue`,
  );
}

function lateWords({ lateDays = 0 }: DueRowAnswer): string {
  if (lateDays > 0) return `${lateDays} d late`;
  return lateDays === 0 ? 'today' : `in ${-lateDays} d`;
}

function targetWords({ target }: DueRowAnswer): string {
  if (target?.kpa === undefined) return '';
  const [us, metric] = [
    printQuantity(target.kpa, 'pressure', 'us'),
    printQuantity(target.kpa, 'pressure', 'metric'),
  ];
  return `: target ${us} (${metric})`;
}

type Flags = { [K in keyof typeof OPTIONS]?: string | boolean };

async function writeDone(
  io: Io,
  api: ServerApi,
  { well, check, flags }: { well: string; check: string; flags: Flags },
): Promise<number> {
  const { checks } = await api.ask('checks', { well });
  if (!checks.some((one) => one.check === check))
    throw new Misuse(`${well} has no check ${check}; it has ${checks.map((one) => one.check).join(', ')}`);
  const by = [flags.by, io.env['USER'], io.env['USERNAME']].find(
    (name) => typeof name === 'string' && name !== '',
  );
  const entry = {
    kind: 'check',
    check,
    outcome: flags.was ?? 'right',
    ...said('value', flags.value),
    ...said('left', flags.left),
    ...said('text', flags.text),
    ...(typeof flags.on === 'string' && { at: `${flags.on}T12:00:00Z` }),
  };
  await api.tell('writeEntry', { well }, { entry, ...(typeof by === 'string' && { by }) });
  const after = (await api.ask('checks', { well })).checks.find((one) => one.check === check);
  io.out(
    `Written down. ${after?.title ?? check} is next due ${after?.on === undefined ? 'never' : `on ${after.on}`}.`,
  );
  return EXIT.ok;
}

function said(key: string, value: string | boolean | undefined): Record<string, string> {
  return typeof value === 'string' ? { [key]: value } : {};
}
