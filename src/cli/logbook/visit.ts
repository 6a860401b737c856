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
  byOption,
  collect,
  jsonOption,
  noteOption,
  onOption,
  photoOption,
  serverOption,
  unitsOption,
} from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import { printReport, workLines } from './visit-report.ts';
import { asUsageError, actorOf, writeEntry, timeZoneOf, type EntryFlags } from './write-entry.ts';
import { texts } from './texts.ts';

type Group = Parameters<CommandBuilder>[0];

export const visitCommand: CommandBuilder = (command, context) => {
  command.description(texts().openAndCloseVisits);
  command.addHelpText('after', `\n${wrapText(CAUTIONS['lock-out'])}`);
  defineLists(command, context);
  defineOpen(command, context);
  defineWork(command, context);
  defineClose(command, context);
};

function defineLists(command: Group, { io, action }: CommandContext): void {
  command
    .command('list')
    .description(texts().listAllVisitsWithTheir)
    .argument('<well>', texts().nameOfTheWell)
    .addOption(jsonOption())
    .addOption(serverOption())
    .action(action((well, flags) => list({ io, api: serverApi(flags.server), well, flags })));
  command
    .command('parts')
    .description(texts().printThePartsListWhat)
    .argument('<well>', texts().nameOfTheWell)
    .addOption(unitsOption())
    .addOption(jsonOption())
    .addOption(serverOption())
    .action(action((well, flags) => partsList({ io, api: serverApi(flags.server), well, flags })));
  command
    .command('report')
    .description(texts().printTheBeforeAfterReport)
    .argument('<well>', texts().nameOfTheWell)
    .argument('[visit]', texts().idOfTheVisit)
    .addOption(unitsOption())
    .addOption(jsonOption())
    .addOption(serverOption())
    .action(action((well, visit, flags) => report({ io, api: serverApi(flags.server), well, flags }, visit)));
}

function defineOpen(command: Group, { io, action }: CommandContext): void {
  command
    .command('open')
    .description(texts().openAVisitWhenYou)
    .argument('<well>', texts().nameOfTheWell)
    .addOption(byOption())
    .addOption(jsonOption())
    .addOption(serverOption())
    .addHelpText('after', texts().examplesOfVisitOpen)
    .action(action((well, flags) => open({ io, api: serverApi(flags.server), well, flags })));
}

function defineWork(command: Group, { io, action }: CommandContext): void {
  command
    .command('work')
    .description(texts().recordWorkThatWasDone)
    .argument('<well>', texts().nameOfTheWell)
    .argument('<text>', texts().whatWasDone)
    .option('--part <text>', texts().partThatWasInstalledRepeat, collect)
    .option('--touched <part>', texts().whatTheWorkTouchedRepeat(AFFECTED_PARTS.join(', ')), collect)
    .option('--done-by <name>', texts().personOrFirmThatDid)
    .addOption(onOption())
    .addOption(noteOption())
    .addOption(photoOption())
    .addOption(byOption())
    .addOption(jsonOption())
    .addOption(serverOption())
    .addHelpText('after', texts().examplesOfVisitWork)
    .action(action((well, text, flags) => work({ io, api: serverApi(flags.server), well, flags }, text)));
}

function defineClose(command: Group, { io, action }: CommandContext): void {
  command
    .command('close')
    .description(texts().closeTheVisitActiveAlarms)
    .argument('<well>', texts().nameOfTheWell)
    .option('--new-baseline', texts().learnAnewWhatIsNormal)
    .option('--keep-baseline', texts().keepTheBaseline)
    .addOption(unitsOption())
    .addOption(byOption())
    .addOption(jsonOption())
    .addOption(serverOption())
    .addHelpText('after', texts().examplesOfVisitClose)
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
  else if (visits.length === 0) io.out(texts().noVisitsToYet(well));
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
    openedBy === undefined ? '' : texts().by(openedBy),
    closedMs === undefined ? texts().open : texts().closedAt(localDate(closedMs, zone)),
    newBaseline ? texts().newBaseline : '',
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
    if (item.reasons.length > 0) io.out(`  ${texts().forReasons(item.reasons.join('; '))}`);
    if (item.known.length > 0) io.out(`  ${item.known.join(', ')}`);
    if (item.unknown.length > 0) io.out(texts().notKnown(item.unknown.join('; ')));
  }
  io.out(texts().always(PARTS_LIST_ALWAYS));
  return EXIT.ok;
}

async function openVisit(api: ServerApi, well: string): Promise<VisitAnswer | undefined> {
  return (await api.get('visits', { well })).visits.find(({ closedMs }) => closedMs === undefined);
}

async function open({ io, api, well, flags }: VisitParams<CloseFlags>): Promise<number> {
  const before = await openVisit(api, well);
  if (before) throw new UsageError(texts().oneIsOpenAlready({ well, openedByWords: openedByWords(before) }));
  await asUsageError(() =>
    api.post('act', {}, { act: { kind: 'visit-opened', well }, ...actorOf(flags, io) }),
  );
  if (flags.json === true) io.out(JSON.stringify(await openVisit(api, well)));
  else io.out(texts().visitToIsOpenAlarms({ well, cautions: CAUTIONS['lock-out'] }));
  return EXIT.ok;
}

function openedByWords({ openedBy }: VisitAnswer): string {
  return openedBy === undefined ? '' : texts().openedBy(openedBy);
}

async function work({ io, api, well, flags }: VisitParams<WorkFlags>, text: string): Promise<number> {
  const visit = await openVisit(api, well);
  if (!visit && flags.on === undefined) throw new UsageError(texts().noVisitToIsOpen(well));
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
  const saved = await writeEntry(io, api, { well, about: texts().aboutVisit, entry }, flags);
  io.out(flags.json === true ? JSON.stringify(saved) : texts().recordedWork(text));
  return EXIT.ok;
}

async function close(params: VisitParams<CloseFlags>): Promise<number> {
  const { io, api, well, flags } = params;
  if (flags.newBaseline && flags.keepBaseline) throw new UsageError(texts().newBaselineAndKeepBaseline);
  const visit = await openVisit(api, well);
  if (!visit) throw new UsageError(texts().noneIsOpen(well));
  const newBaseline = flags.newBaseline === true || (visit.needsNewBaseline && flags.keepBaseline !== true);
  const act = { kind: 'visit-closed', well, ...(newBaseline && { newBaseline: true }) } as const;
  await asUsageError(() => api.post('act', {}, { act, ...actorOf(flags, io) }));
  if (flags.json !== true)
    io.out(texts().visitToIsClosed({ well, closeWords: closeWords(visit, newBaseline) }));
  return report(params, visit.id);
}

function closeWords({ affectedParts }: VisitAnswer, newBaseline: boolean): string {
  if (!newBaseline) return texts().baselineIsKept;
  const why = affectedParts.length === 0 ? '' : texts().becauseTheWorkTouched(affectedParts.join(', '));
  return texts().newBaselineIsLearned(why);
}

async function report({ io, api, well, flags }: VisitParams, id?: string): Promise<number> {
  const { visits } = await api.get('visits', { well });
  const visit = visits.find((one) => id === undefined || one.id === id);
  if (!visit)
    throw new UsageError(
      id === undefined ? texts().thereWasNoVisit(well) : texts().hasNoVisitTryStillwell({ well, id }),
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
