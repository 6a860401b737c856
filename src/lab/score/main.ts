/**
 * `npm run score`: labelled corpora of simulated wells through the whole line, and a scoreboard of
 * what was found, missed and wrongly told: the first plant's wells beside the second's, of which
 * one half is held out (./sets.ts). `-- --set NAME,NAME` plays some sets, `--full` 100 healthy
 * well-years of the first, `--days N` each healthy well for N days at most, `--only NAME-PART` some
 * cases, `--verbose` tells each miss and false alarm; `--json` prints one object, `--markdown` the
 * tables for a page. Single cases of the held-out set are told only with `--reveal-held-out`. Exit
 * 1 where a fault of our own stopped a well.
 */
import { parseArgs } from 'node:util';
import { buildScoreboard } from './scoreboard.ts';
import { compareJson, compareMarkdown, compareText, type Column } from './compare.ts';
import { figuresOf } from './figures.ts';
import { boardMarkdown, boardObject, boardText, casesText } from './print.ts';
import type { CaseScore } from './score-case.ts';
import { casesOf, SET_LABELS, SETS, type SetName } from './sets.ts';
import { shortenCases } from './shorten.ts';
import { scoreAll } from './workers.ts';

const USAGE =
  'Usage: npm run score -- [--set NAME,NAME] [--full] [--days N] [--only NAME-PART] [--verbose] [--reveal-held-out] [--json | --markdown]';

const { values } = readArgs();
const full = values.full ?? false;
const maxDays = values.days === undefined ? undefined : Number(values.days);
if (maxDays !== undefined && !(Number.isInteger(maxDays) && maxDays > 0))
  usageError(`Cannot score: --days must be a whole number over 0: ${values.days}`);
const revealed = values['reveal-held-out'] ?? false;
const cases = setsAsked().flatMap((set) =>
  shortenCases(casesOf(set, full), maxDays)
    .map(({ name, days }, at) => ({ set, name, days, at }))
    .filter(({ name }) => values.only === undefined || (isShown(set) && name.includes(values.only))),
);
if (cases.length === 0) usageError(`Cannot score: no case has "${values.only}" in its name`);

let played = 0;
const beganMs = performance.now();
const scores = await scoreAll({
  cases,
  full,
  ...(maxDays !== undefined && { maxDays }),
  onScore: ({ name }, { set }) => {
    played++;
    progress(`${played} of ${cases.length} cases: ${isShown(set) ? name : SET_LABELS[set]}`);
  },
});
progress('');
const seconds = (performance.now() - beganMs) / 1000;

const scored = scores.map((score, at) => ({ score, set: cases[at]!.set }));
const columns = SETS.flatMap(columnOf);
process.stdout.write(textOf(columns));
if (values.verbose && !values.json && !values.markdown)
  process.stdout.write(`\n${casesText(scored.filter(({ set }) => isShown(set)).map(({ score }) => score))}`);
const readings = columns.reduce((sum, { board }) => sum + board.readings, 0);
process.stderr.write(`${(readings / 1e6 / seconds).toFixed(2)} M readings/s, ${seconds.toFixed(0)} s\n`);
for (const { name, faults } of scores)
  for (const fault of faults) {
    process.exitCode = 1;
    process.stderr.write(`${name}: ${fault}\n`);
  }

function setsAsked(): SetName[] {
  const asked = values.set?.split(',') ?? SETS;
  return asked.map((name) => {
    const set = SETS.find((one) => one === name);
    return set ?? usageError(`Cannot score: --set must name some of ${SETS.join(', ')}: ${name}`);
  });
}

/** Whether single cases of a set may be told. */
function isShown(set: SetName): boolean {
  return set !== 'held-out' || revealed;
}

function columnOf(set: SetName): Column[] {
  const own: CaseScore[] = scored.filter((one) => one.set === set).map(({ score }) => score);
  if (own.length === 0) return [];
  const board = buildScoreboard(own);
  return [{ name: set, label: SET_LABELS[set], board, figures: figuresOf(board) }];
}

/** One set in full, several beside each other. */
function textOf(all: readonly Column[]): string {
  const [{ board, figures }] = all as [Column];
  if (values.json)
    return `${all.length > 1 ? compareJson(all) : JSON.stringify(boardObject(board, figures))}\n`;
  if (values.markdown) return all.length > 1 ? compareMarkdown(all) : boardMarkdown(board, figures);
  return all.length > 1 ? compareText(all) : boardText(board, figures);
}

function readArgs(): {
  values: { [key in 'full' | 'verbose' | 'json' | 'markdown' | 'reveal-held-out']?: boolean } & {
    [key in 'set' | 'only' | 'days']?: string;
  };
} {
  const flag = { type: 'boolean' } as const;
  const text = { type: 'string' } as const;
  try {
    return parseArgs({
      options: {
        full: flag,
        verbose: flag,
        json: flag,
        markdown: flag,
        'reveal-held-out': flag,
        set: text,
        only: text,
        days: text,
      },
    });
  } catch (error) {
    return usageError(error instanceof Error ? error.message : String(error));
  }
}

function usageError(why: string): never {
  process.stderr.write(`${why}\n${USAGE}\n`);
  process.exit(2);
}

/** One line that is written over, where a person looks on. */
function progress(text: string): void {
  if (!process.stderr.isTTY) return;
  process.stderr.write(`\r\u001B[K${text.slice(0, (process.stderr.columns ?? 80) - 1)}`);
}
