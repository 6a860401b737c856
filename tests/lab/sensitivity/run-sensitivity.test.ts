/**
 * Thresholds tried at 0.8 and 1.2 over what the watches saw. The short form tries three over four
 * wells; the long form all of them over the fixed set, and what it measures is kept in
 * src/lab/sensitivity/measured.json (written anew with `-u`).
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { askAll, askReached } from '../../../src/lab/sensitivity/ask-again.ts';
import { fixedSet } from '../../../src/lab/sensitivity/fixed-set.ts';
import { reachOf } from '../../../src/lab/sensitivity/reach.ts';
import { withUses } from '../../../src/lab/sensitivity/rewrite-source.ts';
import { runSensitivity, type Outcome } from '../../../src/lab/sensitivity/run-sensitivity.ts';
import { playOrLoad, type SavedCase } from '../../../src/lab/sensitivity/saved-case.ts';
import { bundleEngine, bundleWatches } from '../../../src/lab/sensitivity/scaled-engine.ts';
import { sourceHash } from '../../../src/lab/sensitivity/source-hash.ts';
import { isFragile, summaryOf, summaryText } from '../../../src/lab/sensitivity/summary.ts';
import { findThresholds } from '../../../src/lab/sensitivity/thresholds.ts';
import { playCase } from '../../../src/lab/score/play.ts';
import { HOUR_MS } from '../../../shared/units/duration.ts';
import { budgetCases, CHARTED, tryBudgets } from '../../../src/lab/sensitivity/try-budgets.ts';
import { depth } from '../../support/depth.ts';

const top = fileURLToPath(new URL('../../..', import.meta.url)).replace(/\/$/, '');
/** Stays where it is, so that a second start of the same engine goes on. */
const LONG_FOLDER = join(tmpdir(), 'stillwell-sensitivity', sourceHash(top));
/** Only ends what hangs. */
const LIMIT_MS = 8 * HOUR_MS;
const asItIs = (_id: string, value: number): number => value;
const all = fixedSet();

/** Two faults and two sound wells whose readings are few. */
const NAMES = ['over-pressure-contacts-stuck', 'no-start-breaker-open', 'sound-float', 'sound-timer'];
const few = NAMES.map((name) => all.find((one) => one.name.includes(name))!).map((one) =>
  one.is === 'healthy' ? { ...one, days: 3 } : one,
);
const THREE = [
  'src/core/alarms/water/over-pressure.ts OVER_CUT_OUT_KPA',
  'src/core/alarms/pump/no-start.ts MIN_UNDER_KPA',
  'src/core/alarms/sensing/sensor-fault.ts MIN_SILENT_S',
];
const three = findThresholds(top).filter(({ id }) => THREE.includes(id));

const folder = mkdtempSync(join(tmpdir(), 'stillwell-sensitivity-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Takes an hour: only `npm run long` has these tests. */
const IN_LONG_RUNS: readonly string[] = depth<string[]>([], ['whole']);

describe('what the watches saw', () => {
  let saved: SavedCase;
  beforeAll(async () => {
    saved = playOrLoad((await bundleEngine(top))(asItIs), few[0]!, folder);
  });

  it('gives the same alarms as the whole line, asked again', async () => {
    const watches = (await bundleWatches(top))(asItIs);
    const plain = playCase(few[0]!);
    expect(plain.alarms.length).toBeGreaterThan(0);
    expect(saved.played.alarms).toEqual(plain.alarms);
    const again = askAll(watches, saved.observed);
    expect(again.alarms).toEqual(plain.alarms);
    const kinds = new Set([...reachOf(top).values()].flat());
    for (const kind of kinds)
      expect([kind, askReached(watches, saved.observed, again, [kind])]).toEqual([kind, plain.alarms]);
  });

  it('gives others with a limit that nothing reaches', async () => {
    const makeWatches = await bundleWatches(top);
    const before = askAll(makeWatches(asItIs), saved.observed);
    // Neither limit of that watch is ever reached.
    const deaf = makeWatches((id, value) =>
      id.endsWith('over-pressure.ts OVER_CUT_OUT_KPA')
        ? 1000 * value
        : id.endsWith('over-pressure.ts UNDER_RELIEF_KPA')
          ? -1000 * value
          : value,
    );
    const raised = askReached(deaf, saved.observed, before, ['over-pressure']).map(({ alarm }) => alarm);
    expect(before.alarms.map(({ alarm }) => alarm)).toContain('over-pressure');
    expect(raised).not.toContain('over-pressure');
  });
});

describe('runSensitivity', () => {
  it('tries each threshold where it can tell, and goes on where it was ended', async () => {
    const asked: [string, number][] = [];
    const options = {
      top,
      folder,
      cases: few,
      thresholds: three,
      onCase: (name: string, outcomes: number) => asked.push([name, outcomes]),
    };
    const early = await runSensitivity({ ...options, cases: few.slice(0, 1) });
    expect(early.map(({ id, factor }) => [id, factor])).toEqual([
      ['', 1],
      [THREE[0], 0.8],
      [THREE[0], 1.2],
    ]);
    const outcomes = await runSensitivity(options);
    // The first well was done. A sound well is asked about all, a fault about its own kind.
    expect(asked.map(([, count]) => count)).toEqual([3, 3, 7, 7]);
    const kept = await runSensitivity({ ...options, onCase: () => expect.fail('nothing is left') });
    expect(kept).toEqual(outcomes);
    const summary = summaryOf(outcomes, few);
    expect(Object.keys(summary).toSorted()).toEqual(THREE.toSorted());
    const limit = summary[THREE[0]!]!;
    expect([limit.faults, limit.found, limit.falseAlarms]).toEqual([1, 1, 0]);
    expect(limit.tried[0.8]?.value).toBeCloseTo(0.8 * limit.value, 9);
    // Three days of each sound well, and what came before the fault.
    expect(limit.soundYears).toBeGreaterThan(19 / 366);
  });

  it.each(IN_LONG_RUNS)(
    'measures all thresholds over the fixed set, %s',
    async () => {
      const kept = join(tmpdir(), 'stillwell-sensitivity');
      const outcomes = await runSensitivity({
        top,
        folder: kept,
        cases: all,
        thresholds: findThresholds(top),
      });
      const measured = { cases: all.length, ofCases: all.length, thresholds: summaryOf(outcomes, all) };
      await expect(summaryText(measured)).toMatchFileSnapshot(`${top}/src/lab/sensitivity/measured.json`);
    },
    LIMIT_MS,
  );
});

describe('tryBudgets', () => {
  it('takes faults of the kinds whose limits follow the budget', () => {
    const kinds = new Set(budgetCases().map(({ fault }) => fault!.alarms[0]!));
    expect([...kinds].toSorted()).toEqual([...CHARTED].toSorted());
  });

  it.each(IN_LONG_RUNS)(
    'measures what other budgets come to in wells of both plants, %s',
    async () => {
      const results = await tryBudgets({ top, folder: LONG_FOLDER, cases: budgetCases() });
      await expect(`${JSON.stringify(results, null, 2)}\n`).toMatchFileSnapshot(
        `${top}/src/lab/sensitivity/measured-budgets.json`,
      );
    },
    LIMIT_MS,
  );
});

describe('withUses', () => {
  it('tells each use of a constant and nothing else', () => {
    const source = `const MIN_RUNS = 3;
export const LIMIT = { times: 2 };
const TWICE = 2 * MIN_RUNS;
const kept = { MIN_RUNS, other: row.MIN_RUNS };
function f(a: typeof MIN_RUNS) { return a < MIN_RUNS && a > LIMIT.times; }
`;
    expect(withUses('x.ts', source)).toBe(`const MIN_RUNS = 3;
export const LIMIT = { times: 2 };
const TWICE = 2 * (used("x.ts MIN_RUNS"), MIN_RUNS);
const kept = { MIN_RUNS: (used("x.ts MIN_RUNS"), MIN_RUNS), other: row.MIN_RUNS };
function f(a: typeof MIN_RUNS) { return a < (used("x.ts MIN_RUNS"), MIN_RUNS) && a > (used("x.ts LIMIT"), LIMIT).times; }
`);
  });
});

describe('isFragile', () => {
  const base = { value: 1, wells: 30, usedIn: 30, faults: 20, found: 20, falseAlarms: 1, soundYears: 10 };
  it.each([
    ['one fault in twenty less', { found: 19, falseAlarms: 1 }, false],
    ['two in twenty less', { found: 18, falseAlarms: 1 }, true],
    ['one false alarm more in ten years', { found: 20, falseAlarms: 2 }, false],
    ['two more', { found: 20, falseAlarms: 3 }, true],
  ])('%s', (_name, step, fragile) => {
    expect(isFragile({ ...base, tried: { 1.2: { value: 1.2, ...step } } })).toBe(fragile);
  });

  it('counts nothing where nothing was tried', () => {
    const untried: Outcome[] = [{ case: 'x', id: '', factor: 1, falseAlarms: [] }];
    expect(summaryOf(untried, [])).toEqual({});
    const text = summaryText({ cases: 1, ofCases: 2, thresholds: { 'x.ts A': { ...base, tried: {} } } });
    expect(JSON.parse(text)).toEqual({
      cases: 1,
      ofCases: 2,
      thresholds: { 'x.ts A': { ...base, tried: {} } },
    });
  });
});
