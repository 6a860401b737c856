/**
 * `stillwell water`: results of water tests as the laboratory wrote them, and beside published
 * limits over the years.
 */
import { Option } from '@commander-js/extra-typings';
import type { WaterResultAnswer, WaterTestAnswer } from '../../../shared/api/due.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { comparedText, resultText } from '../../../shared/text/en/water-text.ts';
import type { WrittenResult } from '../../../shared/water/result.ts';
import { EXIT, UsageError, type CommandBuilder, type CommandContext, type Io } from '../command.ts';
import { byOption, jsonOption, noteOption, photoOption, serverOption } from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import { readTableFile } from './table-file.ts';
import { writeEntry } from './write-entry.ts';
import { texts } from './texts.ts';

type Group = Parameters<CommandBuilder>[0];

const COLUMNS = { required: ['analyte', 'value'], optional: ['unit'] } as const;

export const waterCommand: CommandBuilder = (command, context) => {
  command.description(texts().recordAndListWaterTests(CAUTIONS['test-results']));
  defineList(command, context);
  defineAdd(command, context);
};

function defineList(command: Group, { io, action }: CommandContext): void {
  command
    .command('list')
    .description(texts().listAllTestsNewestFirst)
    .argument('<well>', texts().nameOfTheWell)
    .addOption(jsonOption())
    .addOption(serverOption())
    .action(action((well, { json, server }) => list(io, serverApi(server), well, json === true)));
}

function defineAdd(command: Group, { io, action }: CommandContext): void {
  command
    .command('add')
    .description(texts().recordTheResultsOfOne)
    .argument('<well>', texts().nameOfTheWell)
    .argument('[analyte=result...]', texts().resultsWithTheirUnitSuch)
    .option('--results <file>', texts().readResultsFromATable)
    .option('--laboratory <name>', texts().laboratory)
    .option('--place <text>', texts().samplePointSuchAsKitchen)
    .option('--why <text>', texts().reasonForTheTest)
    .addOption(new Option('--on <date>', texts().whenTheSampleWasDrawn))
    .addOption(noteOption())
    .addOption(photoOption())
    .addOption(byOption())
    .addOption(jsonOption())
    .addOption(serverOption())
    .addHelpText('after', texts().examplesOfWaterAdd)
    .action(
      action(async (well, typed, flags) => {
        const { laboratory, place, why, results: table, json, server } = flags;
        const results = [...(table === undefined ? [] : readTable(table)), ...typed.map(readResultText)];
        if (results.length === 0) throw new UsageError(texts().resultMustBeGivenSuch);
        const entry = {
          kind: 'water-test',
          results,
          ...(laboratory !== undefined && { laboratory }),
          ...(place !== undefined && { place }),
          ...(why !== undefined && { why }),
        };
        const api = serverApi(server);
        const saved = await writeEntry(io, api, { well, about: texts().waterTest, entry }, flags);
        if (json) io.out(JSON.stringify(saved));
        else await printSaved(io, api, well, saved.id);
        return EXIT.ok;
      }),
    );
}

/**
 * A value is a number with its sign, or a word; what follows a number is its unit. @throws
 * UsageError
 */
function readResultText(text: string): WrittenResult {
  const cut = text.indexOf('=');
  const [analyte, value] = [text.slice(0, Math.max(cut, 0)).trim(), text.slice(cut + 1).trim()];
  if (analyte === '' || value === '') throw new UsageError(texts().itMustBeAnAnalyte(text));
  const number = /^([<>]?=?\s*-?[\d.,]*\d(?:e[+-]?\d+)?)\s+(\S.*)$/i.exec(value);
  return number ? { analyte, value: number[1]!, unit: number[2]! } : { analyte, value: value };
}

function readTable(path: string): WrittenResult[] {
  return readTableFile(path, COLUMNS).map(({ cells: { analyte = '', value = '', unit } }) => ({
    analyte,
    value,
    ...(unit !== undefined && { unit }),
  }));
}

async function printSaved(io: Io, api: ServerApi, well: string, id: string): Promise<void> {
  const { tests, next } = await api.get('water', { well });
  const test = tests.find((one) => one.id === id);
  if (test) for (const line of testLines(test)) io.out(line);
  io.out(next?.dueDate === undefined ? texts().recorded : texts().recordedTheNextTest(next.dueDate));
}

async function list(io: Io, api: ServerApi, well: string, json: boolean): Promise<number> {
  const { tests, next, missingYearly } = await api.get('water', { well });
  if (json) {
    for (const test of tests) io.out(JSON.stringify(test));
    return EXIT.ok;
  }
  if (tests.length === 0) io.out(texts().noWaterTestsOfYet(well));
  for (const test of tests) for (const line of testLines(test)) io.out(line);
  if (next?.dueDate !== undefined)
    io.out(texts().nextTestIsDue({ dueDate: next.dueDate, reasons: next.reasons.join(' ') }));
  if (missingYearly.length > 0) io.out(texts().notTestedWithinAYear(missingYearly.join(', ')));
  return EXIT.ok;
}

function testLines({ sampleDate, laboratory, place, why, by, results }: WaterTestAnswer): string[] {
  const from = [laboratory, place, why, by && texts().by(by)].filter((part) => part !== undefined);
  return [[sampleDate, ...from].join(', '), ...results.flatMap(resultLines)];
}

function resultLines(result: WaterResultAnswer): string[] {
  const { name, written, unit, comparisons, advice, remark, plausibilityQuestion } = result;
  const beside = comparisons.map((one) => comparedText(one, unit)).join(' ');
  const reading = [resultText(result), remark, plausibilityQuestion]
    .filter((part) => part !== undefined)
    .join('; ');
  return [
    `  ${name}: ${written} (${reading}). ${beside === '' ? texts().noLimitIsKeptHere : beside}`,
    ...(advice === undefined ? [] : [advice.text, ...advice.cautions].map((line) => `    ${line}`)),
  ];
}
