/** `stillwell visit`: what to bring, a visit opened, its work written down, closed, and the proof of what it changed. */
import type { VisitAnswer } from '../../../shared/api/visits.ts';
import { localDate, momentWords } from '../../../shared/text/en/time-words.ts';
import {
  PARTS_LIST_ALWAYS,
  partsListItemText,
  partsListReason,
} from '../../../shared/text/en/checks/parts-list.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { AFFECTED_PARTS } from '../../logbook/entries/read-work.ts';
import { EXIT, UsageError, type Command, type Io } from '../command.ts';
import { readOptions, readUnits } from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import { printReport, workLines } from './visit-report.ts';
import {
  SERVER_HELP,
  asUsageError,
  requireName,
  rejectExtra,
  actorOf,
  WRITE_HELP,
  WRITE_OPTIONS,
  writeEntry,
  timeZoneOf,
  type Actor,
  type EntryFlags,
} from './write-entry.ts';

const OPTIONS = {
  ...WRITE_OPTIONS,
  part: { type: 'string', multiple: true },
  touched: { type: 'string', multiple: true },
  'done-by': { type: 'string' },
  'new-baseline': { type: 'boolean' },
  'keep-baseline': { type: 'boolean' },
  units: { type: 'string' },
} as const;

type Flags = ReturnType<typeof readOptions<typeof OPTIONS>>['flags'];

export const visitCommand: Command = {
  name: 'visit',
  usage: 'visit list WELL | bring WELL | open WELL | work WELL TEXT | close WELL | proof WELL [VISIT]',
  about: 'Visits to a well: what to bring, the work and its parts, and the proof of what they changed.',
  more: `The server must be running. While a visit is open nothing is raised and nothing is learnt.

  list WELL            all visits, newest first, with their work
  bring WELL           what to bring, from the card and the alarms that stand
  open WELL            open a visit as you begin
  work WELL TEXT       write down work that was done in the open visit, or with --on DATE on another day
  close WELL           close it: what stands is cleared, and the proof is printed as far as it is known
  proof WELL [VISIT]   runs and days before and after: of the last visit unless one is named as the list names it

  --part TEXT       work: a part that went in; once for each
  --touched PART    work: what it touched; once for each: ${AFFECTED_PARTS.slice(0, 6).join(', ')},
                    ${AFFECTED_PARTS.slice(6).join(', ')}
  --done-by NAME    work: the person or firm that did it
  --new-baseline    close: learn anew what is normal (as usual after work on pump, motor, tank or switch)
  --keep-baseline   close: what was normal before stays the measure
  --units UNITS     bring, proof: us (unless given) or metric
${WRITE_HELP}

${SERVER_HELP}

${wrapped(CAUTIONS['lock-out'])}`,
  async run(args, io) {
    const { flags, names } = readOptions(args, OPTIONS);
    const api = serverApi(flags.server);
    const [verb = '', name, text, ...rest] = names;
    rejectExtra(rest);
    if (!Object.hasOwn(VERBS, verb))
      throw new UsageError(`Cannot do "${verb}": ${Object.keys(VERBS).join(', ')} is expected`);
    const well = requireName(name, `visit ${verb} WELL`);
    if (verb !== 'work' && verb !== 'proof' && text !== undefined) rejectExtra([text]);
    return VERBS[verb]!({ io, api, well, text, flags, actor: actorOf(flags, io) });
  },
};

/** A long sentence in the lines of a help. */
function wrapped(text: string): string {
  return text.replaceAll(/(.{1,130})(?:\s|$)/g, '$1\n').trimEnd();
}

interface VisitParams {
  io: Io;
  api: ServerApi;
  well: string;
  text: string | undefined;
  flags: Flags;
  actor: Actor;
}

const VERBS: Record<string, (params: VisitParams) => Promise<number>> = {
  list,
  bring: partsList,
  open,
  work,
  close,
  proof: report,
};

async function list({ io, api, well, flags }: VisitParams): Promise<number> {
  const [{ visits }, zone] = await Promise.all([api.get('visits', { well }), timeZoneOf(api, well)]);
  if (flags.json === true) for (const visit of visits) io.out(JSON.stringify(visit));
  else if (visits.length === 0) io.out(`No visit to ${well} yet.`);
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
    newBaseline ? 'what is normal was learnt anew' : '',
  ]
    .filter((part) => part !== '')
    .join('; ');
}

async function partsList({ io, api, well, flags }: VisitParams): Promise<number> {
  const items = (await api.get('partsList', { well }))[readUnits(flags.units) ?? 'us'];
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

async function open({ io, api, well, flags, actor }: VisitParams): Promise<number> {
  const before = await openVisit(api, well);
  if (before)
    throw new UsageError(`Cannot open a visit to ${well}: one is open already${openedByWords(before)}`);
  await asUsageError(() => api.post('act', {}, { act: { kind: 'visit-opened', well }, ...actor }));
  if (flags.json === true) io.out(JSON.stringify(await openVisit(api, well)));
  else
    io.out(`A visit to ${well} is open. Alarms are suppressed until you close it.\n${CAUTIONS['lock-out']}`);
  return EXIT.ok;
}

function openedByWords({ openedBy }: VisitAnswer): string {
  return openedBy === undefined ? '' : `, opened by ${openedBy}`;
}

async function work({ io, api, well, text, flags }: VisitParams): Promise<number> {
  if (text === undefined)
    throw new UsageError(`What was done is expected: stillwell visit work ${well} "New pump set"`);
  const visit = await openVisit(api, well);
  if (!visit && flags.on === undefined)
    throw new UsageError(
      `Cannot write down work: no visit to ${well} is open. Open one, or give the day on which it was done with --on`,
    );
  const inVisit = visit && flags.on === undefined;
  const { part, touched, 'done-by': doneBy } = flags;
  const entry = {
    kind: 'work',
    done: text,
    ...(inVisit && { visit: visit.id }),
    ...(part !== undefined && { parts: part }),
    ...(touched !== undefined && { touched: touched.flatMap((one) => one.split(',')) }),
    ...(doneBy !== undefined && { doneBy }),
  };
  const saved = await writeEntry(io, api, { well, about: 'visit', entry }, flags satisfies EntryFlags);
  io.out(flags.json === true ? JSON.stringify(saved) : `Written down: ${text}`);
  return EXIT.ok;
}

async function close(params: VisitParams): Promise<number> {
  const { io, api, well, flags, actor } = params;
  if (flags['new-baseline'] === true && flags['keep-baseline'] === true)
    throw new UsageError('Cannot close: --new-baseline and --keep-baseline say the contrary');
  const visit = await openVisit(api, well);
  if (!visit) throw new UsageError(`Cannot close a visit to ${well}: none is open`);
  const newBaseline =
    flags['new-baseline'] === true || (visit.needsNewBaseline && flags['keep-baseline'] !== true);
  const act = { kind: 'visit-closed', well, ...(newBaseline && { newBaseline: true }) } as const;
  await asUsageError(() => api.post('act', {}, { act, ...actor }));
  if (flags.json !== true) io.out(`The visit to ${well} is closed. ${closeWords(visit, newBaseline)}`);
  return report({ ...params, text: visit.id });
}

function closeWords({ affectedParts }: VisitAnswer, newBaseline: boolean): string {
  if (!newBaseline) return 'What was normal before stays the measure.';
  const why = affectedParts.length === 0 ? '' : `, for the work touched ${affectedParts.join(', ')}`;
  return `What is normal is learnt anew${why}.`;
}

async function report({ io, api, well, text, flags }: VisitParams): Promise<number> {
  const { visits } = await api.get('visits', { well });
  const visit = visits.find(({ id }) => text === undefined || id === text);
  if (!visit)
    throw new UsageError(
      text === undefined ? `There was no visit to ${well} yet` : `No visit to ${well} is called ${text}`,
    );
  const [answer, zone] = await Promise.all([
    api.get('report', { well, visit: visit.id }),
    timeZoneOf(api, well),
  ]);
  const units = readUnits(flags.units) ?? 'us';
  if (flags.json === true) io.out(JSON.stringify(answer));
  else printReport(io, answer, { well, units, when: (ms) => momentWords(ms, zone, units, answer.nowMs) });
  return EXIT.ok;
}
