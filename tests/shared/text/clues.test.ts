/**
 * The clues: whole sentences in both units, odds for known causes, and reasons that are those that
 * weighed.
 */
import { describe, expect, test } from 'vitest';
import { CLUES, evaluateClues } from '../../../shared/text/en/causes/clues.ts';
import { causeEvidence } from '../../../shared/text/en/causes/cause-evidence.ts';
import { CAUSES, type AlarmKind } from '../../../shared/text/en/alarms/kinds.ts';

/** For each clue, values on all sides of its limits. */
const VALUES: Record<string, (number | string)[]> = {
  ampsShare: [0.6, 0.9, 1, 1.1],
  levelM: [-0.2, 1, 3, 20],
  storeM: [0.02, 0.2, 2],
  tankKind: ['captive-air', 'plain'],
  levelFallM: [-5, -2, 0.4, 2, 4, 9],
  voltsShare: [0.01, 0.85, 0.93, 1, 1.07, 1.2],
  voltsUnbalance: [0.001, 0.007, 0.03],
  temperatureC: [-8, 3, 18],
  lateRiseS: [25],
  promptRiseS: [4],
  deliveryShare: [0.7, 0.95, 1],
  runsLoseShare: [0.12],
  airShare: [0.5, 0.9, 1, 1.2],
  leakLPerDay: [0, 50, 400],
  failedStarts: [1, 3],
  goodStarts: [1, 12],
  brokeOffKpa: [330],
  phase: [1, 3],
  wires: [2, 3],
  pumpKind: ['submersible', 'jet', 'booster'],
  ageYears: [0, 7, 20],
  sinceVisitH: [1, 30],
  expected: ['guests'],
};

test.each(CLUES.map((clue) => [clue.figure, clue] as const))(
  '%s: each reading is a whole sentence in both units, with odds of known causes',
  (figure, clue) => {
    const readings = VALUES[figure]!.flatMap((value) => clue.read(value, {}) ?? []);
    expect(readings.length).toBeGreaterThan(0);
    for (const { text, odds } of readings) {
      for (const units of ['us', 'metric'] as const) {
        expect(text(units)).toMatch(/^[A-Z0-9-].*\.$/u);
        expect(text(units)).not.toMatch(/NaN|undefined/);
      }
      for (const [cause, factor] of Object.entries(odds)) {
        expect(CAUSES).toContain(cause);
        expect(factor).toBeGreaterThan(0);
        expect(factor).toBeLessThanOrEqual(4);
      }
    }
  },
);

test('no clue is named twice, and a figure that is text where a number belongs says nothing', () => {
  expect(new Set(CLUES.map(({ figure }) => figure)).size).toBe(CLUES.length);
  expect(evaluateClues('no-start', { levelM: 'deep' })).toEqual([]);
});

test('much water over the pump says nothing for the well once it has sunk by metres', () => {
  const spoke = (evidence: Record<string, number>): string[] =>
    evaluateClues('slow-fill', evidence).map(({ figure }) => figure);
  expect(spoke({ levelM: 12, levelFallM: 0.2 })).toEqual(['levelM', 'levelFallM']);
  expect(spoke({ levelM: 12, levelFallM: 7 })).toEqual(['levelFallM']);
});

test('water that stands higher by metres is why a sound motor draws more', () => {
  const [clue] = evaluateClues('amps-high', { levelFallM: -12 });
  expect(clue?.reading.text('us')).toBe('The water stands 39 ft higher than at first.');
  expect(clue?.reading.odds['water-table-risen']).toBeGreaterThan(1);
  expect(clue?.reading.odds['failing-motor']).toBeLessThan(1);
});

test('a pump that displaces its water draws more against a shut valve, and less from an open pipe', () => {
  const oddsAt = (ampsShare: number, pumpKind: string) =>
    evaluateClues('long-run', { ampsShare, pumpKind }).find(({ figure }) => figure === 'ampsShare')?.reading
      .odds ?? {};
  expect(oddsAt(1.2, 'positive-displacement')['closed-valve']).toBeGreaterThan(1);
  expect(oddsAt(1.2, 'submersible')['closed-valve']).toBeLessThan(1);
  expect(oddsAt(0.8, 'positive-displacement')['closed-valve']).toBeLessThan(0.1);
  expect(oddsAt(0.8, 'submersible')['closed-valve']).toBeGreaterThan(1);
  expect(oddsAt(0.8, 'positive-displacement')['broken-pipe']).toBeGreaterThan(1);
  expect(oddsAt(1, 'positive-displacement')).toEqual({});
});

test('a bleeder that drains the pipe is not read as a check valve', () => {
  const figures = (evidence: Record<string, number | string>): string[] =>
    evaluateClues('leak', evidence).map(({ figure }) => figure);
  expect(figures({ lateRiseS: 20, tankKind: 'plain' })).toEqual(['tankKind']);
  expect(figures({ lateRiseS: 20 })).toEqual(['lateRiseS']);
});

describe('forAndAgainst', () => {
  const of = (alarm: AlarmKind, evidence: Record<string, number | string>) =>
    causeEvidence(
      {
        alarm,
        evidence,
        causes: [
          { cause: 'low-well', weight: 0.6 },
          { cause: 'lost-prime', weight: 0.4 },
        ],
      },
      'us',
    );

  test('says of each cause what speaks for it and what against', () => {
    expect(of('dry-run', { levelM: 0.6, pumpKind: 'submersible', amps: 4 })).toEqual([
      { cause: 'low-well', for: ['2 ft of water stand over the pump.'], against: [] },
      {
        cause: 'lost-prime',
        for: [],
        against: ['2 ft of water stand over the pump.', 'The pump stands in the water.'],
      },
    ]);
  });

  test('an alarm made of a figure is not told it again', () => {
    expect(of('level-low', { levelM: 0.6 })[0]).toEqual({ cause: 'low-well', for: [], against: [] });
  });
});
