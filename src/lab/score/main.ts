/**
 * `npm run score`: a labelled corpus of simulated wells through the whole line, and a scoreboard of
 * what was found, missed and wrongly told. `-- --full` plays 100 healthy well-years, `--days N`
 * each healthy well for N days at most, `--only NAME-PART` some cases, `--verbose` tells each miss
 * and false alarm; `--json` prints one object, `--markdown` the tables for a page. Exit 1 where a
 * fault of our own stopped a well.
 */
import { parseArgs } from 'node:util';
import { buildScoreboard } from './scoreboard.ts';
import { corpus } from './corpus/all.ts';
import { figuresOf } from './figures.ts';
import { boardJson, boardMarkdown, boardText, casesText } from './print.ts';
import { shortenCases } from './shorten.ts';
import { scoreAll } from './workers.ts';

const USAGE =
  'Usage: npm run score -- [--full] [--days N] [--only NAME-PART] [--verbose] [--json | --markdown]';

const { values } = readArgs();
const full = values.full ?? false;
const maxDays = values.days === undefined ? undefined : Number(values.days);
if (maxDays !== undefined && !(Number.isInteger(maxDays) && maxDays > 0))
  usageError(`Cannot score: --days must be a whole number over 0: ${values.days}`);
const cases = shortenCases(corpus(full), maxDays)
  .map(({ name, days }, at) => ({ name, days, at }))
  .filter(({ name }) => name.includes(values.only ?? ''));
if (cases.length === 0) usageError(`Cannot score: no case has "${values.only}" in its name`);

let played = 0;
const beganMs = performance.now();
const scores = await scoreAll({
  cases,
  full,
  ...(maxDays !== undefined && { maxDays }),
  onScore: (score) => {
    played++;
    progress(`${played} of ${cases.length} cases: ${score.name}`);
  },
});
progress('');
const seconds = (performance.now() - beganMs) / 1000;

const board = buildScoreboard(scores);
const figures = figuresOf(board);
if (values.json) process.stdout.write(`${boardJson(board, figures)}\n`);
else if (values.markdown) process.stdout.write(boardMarkdown(board, figures));
else {
  process.stdout.write(boardText(board, figures));
  if (values.verbose) process.stdout.write(`\n${casesText(scores)}`);
}
process.stderr.write(
  `${(board.readings / 1e6 / seconds).toFixed(2)} M readings/s, ${seconds.toFixed(0)} s\n`,
);
for (const { name, faults } of scores)
  for (const fault of faults) {
    process.exitCode = 1;
    process.stderr.write(`${name}: ${fault}\n`);
  }

function readArgs(): {
  values: { [key in 'full' | 'verbose' | 'json' | 'markdown']?: boolean } & { only?: string; days?: string };
} {
  const flag = { type: 'boolean' } as const;
  try {
    return parseArgs({
      options: {
        full: flag,
        verbose: flag,
        json: flag,
        markdown: flag,
        only: { type: 'string' },
        days: { type: 'string' },
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
