/**
 * `stillwell visit`: the parts list, a visit opened, its work recorded, closed, and the
 * before/after report.
 */
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import type { VisitAnswer } from '../../../shared/api/visits.ts';
import { localDate, momentWords } from '../../../shared/text/en/time-words.ts';
import {
  PARTS_LIST_ALWAYS,
  partsListItemText,
  partsListReason,
} from '../../../shared/text/en/checks/parts-list.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { AFFECTED_PARTS } from '../../../shared/entries/entry-fields.ts';
import { EXIT, UsageError, type CommandBuilder, type CommandContext, type Io } from '../command.ts';
import {
  BY_OPTION,
  collect,
  JSON_OPTION,
  NOTE_OPTION,
  ON_OPTION,
  PHOTO_OPTION,
  SERVER_OPTION,
  UNITS_OPTION,
} from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import { printReport, workLines } from './visit-report.ts';
import { asUsageError, actorOf, writeEntry, timeZoneOf, type EntryFlags } from './write-entry.ts';

const WELL = 'Name of the well.';

type Group = Parameters<CommandBuilder>[0];

export const visitCommand: CommandBuilder = (command, context) => {
  command.description(
    'Open and close visits, and record the work. ' +
      'While a visit is open, alarms are suppressed and nothing is learned. The server must be running.',
  );
  command.addHelpText('after', `\n${wrapText(CAUTIONS['lock-out'])}`);
  defineLists(command, context);
  defineOpen(command, context);
  defineWork(command, context);
  defineClose(command, context);
};

function defineLists(command: Group, { io, action }: CommandContext): void {
  command
    .command('list')
    .description('List all visits with their work, newest first.')
    .argument('<well>', WELL)
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .action(action((well, flags) => list({ io, api: serverApi(flags.server), well, flags })));
  command
    .command('parts')
    .description('Print the parts list: what to bring, from the card and the active alarms.')
    .argument('<well>', WELL)
    .addOption(UNITS_OPTION)
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .action(action((well, flags) => partsList({ io, api: serverApi(flags.server), well, flags })));
  command
    .command('report')
    .description('Print the before/after report of a visit: runs and days on either side of it.')
    .argument('<well>', WELL)
    .argument('[visit]', 'Id of the visit, as "visit list" prints it. Default: the last visit.')
    .addOption(UNITS_OPTION)
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .action(action((well, visit, flags) => report({ io, api: serverApi(flags.server), well, flags }, visit)));
}

function defineOpen(command: Group, { io, action }: CommandContext): void {
  command
    .command('open')
    .description('Open a visit when you begin.')
    .argument('<well>', WELL)
    .addOption(BY_OPTION)
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .addHelpText('after', '\nExample:\n  stillwell visit open mill --by "Tom, Larch Wells"')
    .action(action((well, flags) => open({ io, api: serverApi(flags.server), well, flags })));
}

function defineWork(command: Group, { io, action }: CommandContext): void {
  command
    .command('work')
    .description('Record work that was done in the open visit, or on another day with --on.')
    .argument('<well>', WELL)
    .argument('<text>', 'What was done.')
    .option('--part <text>', 'A part that was installed. Repeat the option for each.', collect)
    .option(
      '--touched <part>',
      `What the work touched. Repeat the option for each. One of ${AFFECTED_PARTS.join(', ')}.`,
      collect,
    )
    .option('--done-by <name>', 'Person or firm that did the work.')
    .addOption(ON_OPTION)
    .addOption(NOTE_OPTION)
    .addOption(PHOTO_OPTION)
    .addOption(BY_OPTION)
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .addHelpText(
      'after',
      '\nExample:\n  stillwell visit work mill "New pump set at 180 ft" --part "1 hp pump" --touched pump',
    )
    .action(action((well, text, flags) => work({ io, api: serverApi(flags.server), well, flags }, text)));
}

function defineClose(command: Group, { io, action }: CommandContext): void {
  command
    .command('close')
    .description('Close the visit: active alarms are cleared, and the before/after report is printed.')
    .argument('<well>', WELL)
    .option('--new-baseline', 'Learn anew what is normal. Default after work on pump, motor, tank or switch.')
    .option('--keep-baseline', 'Keep the baseline.')
    .addOption(UNITS_OPTION)
    .addOption(BY_OPTION)
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .addHelpText('after', '\nExample:\n  stillwell visit close mill --new-baseline')
    .action(action((well, flags) => close({ io, api: serverApi(flags.server), well, flags })));
}

/** A long sentence in the lines of a help. */
function wrapText(text: string): string {
  return text.replaceAll(/(.{1,96})(?:\s|$)/g, '$1\n').trimEnd();
}

interface VisitParams<F = { json?: true; units?: UnitSystem }> {
  io: Io;
  api: ServerApi;
  well: string;
  flags: F;
}

interface WorkFlags extends EntryFlags {
  json?: true;
  part?: string[];
  touched?: string[];
  doneBy?: string;
}

interface CloseFlags {
  json?: true;
  units?: UnitSystem;
  by?: string;
  newBaseline?: true;
  keepBaseline?: true;
}

async function list({ io, api, well, flags }: VisitParams): Promise<number> {
  const [{ visits }, zone] = await Promise.all([api.get('visits', { well }), timeZoneOf(api, well)]);
  if (flags.json === true) for (const visit of visits) io.out(JSON.stringify(visit));
  else if (visits.length === 0) io.out(`No visits to ${well} yet.`);
  else
    for (const visit of visits) {
      io.out(`${visit.id}  ${visitWords(visit, zone)}`);
      for (const line of visit.work.flatMap(workLines)) io.out(`  ${line}`);
    }
  return EXIT.ok;
}

function visitWords({ openedMs, openedBy, closedMs, newBaseline }: VisitAnswer, zone: string): string {
  return [
    localDate(openedMs, zone),
    openedBy === undefined ? '' : `by ${openedBy}`,
    closedMs === undefined ? 'open' : `closed ${localDate(closedMs, zone)}`,
    newBaseline ? 'new baseline' : '',
  ]
    .filter((part) => part !== '')
    .join('; ');
}

async function partsList({ io, api, well, flags }: VisitParams): Promise<number> {
  const items = (await api.get('partsList', { well }))[flags.units ?? 'us'];
  if (flags.json === true) {
    for (const item of items) io.out(JSON.stringify(item));
    return EXIT.ok;
  }
  io.out(partsListReason(items));
  for (const item of items) {
    io.out(partsListItemText(item));
    if (item.reasons.length > 0) io.out(`  for: ${item.reasons.join('; ')}`);
    if (item.known.length > 0) io.out(`  ${item.known.join(', ')}`);
    if (item.unknown.length > 0) io.out(`  not known: ${item.unknown.join('; ')}`);
  }
  io.out(`Always: ${PARTS_LIST_ALWAYS}`);
  return EXIT.ok;
}

async function openVisit(api: ServerApi, well: string): Promise<VisitAnswer | undefined> {
  return (await api.get('visits', { well })).visits.find(({ closedMs }) => closedMs === undefined);
}

async function open({ io, api, well, flags }: VisitParams<CloseFlags>): Promise<number> {
  const before = await openVisit(api, well);
  if (before)
    throw new UsageError(`Cannot open a visit to ${well}: one is open already${openedByWords(before)}`);
  await asUsageError(() =>
    api.post('act', {}, { act: { kind: 'visit-opened', well }, ...actorOf(flags, io) }),
  );
  if (flags.json === true) io.out(JSON.stringify(await openVisit(api, well)));
  else
    io.out(`A visit to ${well} is open. Alarms are suppressed until you close it.\n${CAUTIONS['lock-out']}`);
  return EXIT.ok;
}

function openedByWords({ openedBy }: VisitAnswer): string {
  return openedBy === undefined ? '' : `, opened by ${openedBy}`;
}

async function work({ io, api, well, flags }: VisitParams<WorkFlags>, text: string): Promise<number> {
  const visit = await openVisit(api, well);
  if (!visit && flags.on === undefined)
    throw new UsageError(
      `Cannot record work: no visit to ${well} is open. Open one, or give the day of the work with --on`,
    );
  const inVisit = visit && flags.on === undefined;
  const { part, touched, doneBy } = flags;
  const entry = {
    kind: 'work',
    done: text,
    ...(inVisit && { visit: visit.id }),
    ...(part !== undefined && { parts: part }),
    ...(touched !== undefined && { touched: touched.flatMap((one) => one.split(',')) }),
    ...(doneBy !== undefined && { doneBy }),
  };
  const saved = await writeEntry(io, api, { well, about: 'visit', entry }, flags);
  io.out(flags.json === true ? JSON.stringify(saved) : `Recorded: ${text}`);
  return EXIT.ok;
}

async function close(params: VisitParams<CloseFlags>): Promise<number> {
  const { io, api, well, flags } = params;
  if (flags.newBaseline && flags.keepBaseline)
    throw new UsageError('Cannot close: --new-baseline and --keep-baseline exclude each other');
  const visit = await openVisit(api, well);
  if (!visit) throw new UsageError(`Cannot close a visit to ${well}: none is open`);
  const newBaseline = flags.newBaseline === true || (visit.needsNewBaseline && flags.keepBaseline !== true);
  const act = { kind: 'visit-closed', well, ...(newBaseline && { newBaseline: true }) } as const;
  await asUsageError(() => api.post('act', {}, { act, ...actorOf(flags, io) }));
  if (flags.json !== true) io.out(`The visit to ${well} is closed. ${closeWords(visit, newBaseline)}`);
  return report(params, visit.id);
}

function closeWords({ affectedParts }: VisitAnswer, newBaseline: boolean): string {
  if (!newBaseline) return 'The baseline is kept.';
  const why = affectedParts.length === 0 ? '' : `, because the work touched ${affectedParts.join(', ')}`;
  return `A new baseline is learned${why}.`;
}

async function report({ io, api, well, flags }: VisitParams, id?: string): Promise<number> {
  const { visits } = await api.get('visits', { well });
  const visit = visits.find((one) => id === undefined || one.id === id);
  if (!visit)
    throw new UsageError(
      id === undefined
        ? `Cannot print a report: there was no visit to ${well} yet`
        : `Cannot print a report: ${well} has no visit ${id}. Try: stillwell visit list ${well}`,
    );
  const [answer, zone] = await Promise.all([
    api.get('report', { well, visit: visit.id }),
    timeZoneOf(api, well),
  ]);
  const units = flags.units ?? 'us';
  if (flags.json === true) io.out(JSON.stringify(answer));
  else printReport(io, answer, { well, units, when: (ms) => momentWords(ms, zone, units, answer.nowMs) });
  return EXIT.ok;
}
