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
import { BY_OPTION, JSON_OPTION, NOTE_OPTION, PHOTO_OPTION, SERVER_OPTION } from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import { readTableFile } from './table-file.ts';
import { writeEntry } from './write-entry.ts';

type Group = Parameters<CommandBuilder>[0];

const COLUMNS = { required: ['analyte', 'value'], optional: ['unit'] } as const;

export const waterCommand: CommandBuilder = (command, context) => {
  command.description(
    'Record and list water tests. Each result stands beside the published limits. ' +
      `The server must be running. ${CAUTIONS['test-results']}`,
  );
  defineList(command, context);
  defineAdd(command, context);
};

function defineList(command: Group, { io, action }: CommandContext): void {
  command
    .command('list')
    .description('List all tests, newest first, and what to test next.')
    .argument('<well>', 'Name of the well.')
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .action(action((well, { json, server }) => list(io, serverApi(server), well, json === true)));
}

function defineAdd(command: Group, { io, action }: CommandContext): void {
  command
    .command('add')
    .description('Record the results of one test as the laboratory wrote them.')
    .argument('<well>', 'Name of the well.')
    .argument('[analyte=result...]', 'Results with their unit, such as "Nitrate=2.1 mg/L as N".')
    .option('--results <file>', 'Read results from a table (.csv) with the columns analyte, value and unit.')
    .option('--laboratory <name>', 'Laboratory.')
    .option('--place <text>', 'Sample point, such as "kitchen tap".')
    .option('--why <text>', 'Reason for the test.')
    .addOption(new Option('--on <date>', 'When the sample was drawn, as 2026-11-30. Default: now.'))
    .addOption(NOTE_OPTION)
    .addOption(PHOTO_OPTION)
    .addOption(BY_OPTION)
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .addHelpText(
      'after',
      `
Examples:
  stillwell water add mill "Nitrate=2.1 mg/L as N" "Total coliform=absent" "Lead=< 1 ug/L"
  stillwell water add mill --results mill-water.csv --on 2026-11-02`,
    )
    .action(
      action(async (well, typed, flags) => {
        const { laboratory, place, why, results: table, json, server } = flags;
        const results = [...(table === undefined ? [] : readTable(table)), ...typed.map(readResultText)];
        if (results.length === 0)
          throw new UsageError(
            'Cannot record a water test: a result must be given, such as "Nitrate=2.1 mg/L as N", or --results FILE',
          );
        const entry = {
          kind: 'water-test',
          results,
          ...(laboratory !== undefined && { laboratory }),
          ...(place !== undefined && { place }),
          ...(why !== undefined && { why }),
        };
        const api = serverApi(server);
        const saved = await writeEntry(io, api, { well, about: 'Water test', entry }, flags);
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
  if (analyte === '' || value === '')
    throw new UsageError(
      `Cannot read "${text}": it must be an analyte and its result, such as "Nitrate=2.1 mg/L as N"`,
    );
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
  io.out(next?.dueDate === undefined ? 'Recorded.' : `Recorded. The next test is due on ${next.dueDate}.`);
}

async function list(io: Io, api: ServerApi, well: string, json: boolean): Promise<number> {
  const { tests, next, missingYearly } = await api.get('water', { well });
  if (json) {
    for (const test of tests) io.out(JSON.stringify(test));
    return EXIT.ok;
  }
  if (tests.length === 0) io.out(`No water tests of ${well} yet.`);
  for (const test of tests) for (const line of testLines(test)) io.out(line);
  if (next?.dueDate !== undefined)
    io.out(`The next test is due on ${next.dueDate}: ${next.reasons.join(' ')}`);
  if (missingYearly.length > 0) io.out(`Not tested within a year: ${missingYearly.join(', ')}.`);
  return EXIT.ok;
}

function testLines({ sampleDate, laboratory, place, why, by, results }: WaterTestAnswer): string[] {
  const from = [laboratory, place, why, by && `by ${by}`].filter((part) => part !== undefined);
  return [[sampleDate, ...from].join(', '), ...results.flatMap(resultLines)];
}

function resultLines(result: WaterResultAnswer): string[] {
  const { name, written, unit, comparisons, advice, remark, plausibilityQuestion } = result;
  const beside = comparisons.map((one) => comparedText(one, unit)).join(' ');
  const reading = [resultText(result), remark, plausibilityQuestion]
    .filter((part) => part !== undefined)
    .join('; ');
  return [
    `  ${name}: ${written} (${reading}). ${beside === '' ? 'No limit is kept here.' : beside}`,
    ...(advice === undefined ? [] : [advice.text, ...advice.cautions].map((line) => `    ${line}`)),
  ];
}
