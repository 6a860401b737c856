/** `stillwell water`: results of water tests as the laboratory wrote them, and beside published limits over the years. */
import type { WaterResultAnswer, WaterTestAnswer } from '../../../shared/api/due.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { comparedText, resultText } from '../../../shared/text/en/water-text.ts';
import type { WrittenResult } from '../../../shared/water/result.ts';
import { EXIT, UsageError, type Command, type Io } from '../command.ts';
import { readOptions } from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import { readTableFile } from './table-file.ts';
import {
  SERVER_HELP,
  requireName,
  rejectExtra,
  WRITE_HELP,
  WRITE_OPTIONS,
  writeEntry,
} from './write-entry.ts';

const OPTIONS = {
  ...WRITE_OPTIONS,
  results: { type: 'string' },
  laboratory: { type: 'string' },
  place: { type: 'string' },
  why: { type: 'string' },
} as const;

const COLUMNS = { required: ['analyte', 'value'], optional: ['unit'] } as const;

export const waterCommand: Command = {
  name: 'water',
  usage: 'water list WELL | water add WELL ANALYTE="VALUE UNIT" …',
  about:
    'Water tests: results as the laboratory wrote them, kept beside the published limits, over the years.',
  more: `The server must be running. ${CAUTIONS['test-results']}

  list WELL         all tests, newest first, each result beside its limits; and what is to be tested next
  add WELL …        one test: water add mill "Nitrate=2.1 mg/L as N" "Total coliform=absent" "Lead=< 1 ug/L"

  --results FILE    a table (.csv) of results, its columns analyte, value, unit
  --laboratory NAME which laboratory; --place "kitchen tap" which tap; --why "each year" why now
${WRITE_HELP.replace('the day on which it was so', 'the day on which the sample was drawn')}

${SERVER_HELP}`,
  async run(args, io) {
    const { flags, names } = readOptions(args, OPTIONS);
    const api = serverApi(flags.server);
    const [verb, name, ...typed] = names;
    const json = flags.json === true;
    if (verb === 'list') {
      rejectExtra(typed);
      return list(io, api, requireName(name, 'water list WELL'), json);
    }
    if (verb !== 'add') throw new UsageError(`Cannot do "${verb ?? ''}": list or add is expected`);
    const well = requireName(name, 'water add WELL ANALYTE="VALUE UNIT" …');
    const results = [
      ...(flags.results === undefined ? [] : readTable(flags.results)),
      ...typed.map(readResultText),
    ];
    if (results.length === 0)
      throw new UsageError(
        'A result is expected: stillwell water add WELL "Nitrate=2.1 mg/L as N", or --results FILE',
      );
    const { laboratory, place, why } = flags;
    const entry = {
      kind: 'water-test',
      results,
      ...(laboratory !== undefined && { laboratory }),
      ...(place !== undefined && { place }),
      ...(why !== undefined && { why }),
    };
    const saved = await writeEntry(io, api, { well, about: 'Water test', entry }, flags);
    if (json) io.out(JSON.stringify(saved));
    else await printSaved(io, api, well, saved.id);
    return EXIT.ok;
  },
};

/** A value is a number with its sign, or a word; what follows a number is its unit. @throws UsageError */
function readResultText(text: string): WrittenResult {
  const cut = text.indexOf('=');
  const [analyte, value] = [text.slice(0, Math.max(cut, 0)).trim(), text.slice(cut + 1).trim()];
  if (analyte === '' || value === '')
    throw new UsageError(
      `Cannot read "${text}": it must be an analyte and its result, as "Nitrate=2.1 mg/L as N"`,
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
  io.out(
    next?.dueDate === undefined ? 'Written down.' : `Written down. The next test is due on ${next.dueDate}.`,
  );
}

async function list(io: Io, api: ServerApi, well: string, json: boolean): Promise<number> {
  const { tests, next, missingYearly } = await api.get('water', { well });
  if (json) {
    for (const test of tests) io.out(JSON.stringify(test));
    return EXIT.ok;
  }
  if (tests.length === 0) io.out(`No water test of ${well} is written down yet.`);
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
