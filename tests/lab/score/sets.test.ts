/** Sets beside each other (src/lab/score/compare.ts), and which there are. */
import { describe, expect, it } from 'vitest';
import { compareJson, compareMarkdown, compareText, type Column } from '../../../src/lab/score/compare.ts';
import { figuresOf } from '../../../src/lab/score/figures.ts';
import { judge } from '../../../src/lab/score/judge.ts';
import { newMeasures } from '../../../src/lab/score/measures.ts';
import { buildScoreboard } from '../../../src/lab/score/scoreboard.ts';
import { casesOf, SETS } from '../../../src/lab/score/sets.ts';
import type { AlarmEvent } from '../../../shared/api/events.ts';
import { faultCase, FROM_MS, houseCase, played, raised } from '../support/corpus-cases.ts';

function column(name: string, soundAlarms: AlarmEvent[], faultAlarms: AlarmEvent[]): Column {
  const scores = [
    { corpusCase: houseCase(), alarms: soundAlarms },
    { corpusCase: faultCase(), alarms: faultAlarms },
  ].map(({ corpusCase, alarms }) => ({
    name,
    is: corpusCase.is,
    fromMs: FROM_MS,
    years: 1,
    healthyYears: corpusCase.is === 'healthy' ? 2 : 0,
    ...judge(corpusCase, played(alarms)),
    measures: newMeasures(),
    readings: 1000,
    remarks: [],
    faults: [],
  }));
  const board = buildScoreboard(scores);
  return { name, label: `plant ${name}`, board, figures: figuresOf(board) };
}

const columns = [
  column('one', [raised('leak', 5000)], [raised('tank-air-lost', 3000, ['tank-air-lost'])]),
  column('two', [], []),
];

describe('several sets', () => {
  it('stand beside each other, figure by figure and kind by kind', () => {
    const text = compareText(columns);
    expect(text).toMatch(/^ +target +plant one +plant two$/m);
    expect(text).toMatch(/^faults found +>= 0\.98 +1\.000 \(1 of 1\) +0\.000 \(0 of 1\) missed$/m);
    expect(text).toMatch(/^tank-air-lost +1\/1 {2}17 min {2}0\.00 {2}1\/1 +0\/1 {2}- {2}0\.00 {2}-$/m);
    expect(text).toMatch(/^leak +0\/0 {2}- {2}0\.50 {2}- +-$/m);
    expect(compareMarkdown(columns)).toMatch(/^\| alarm \| plant one \| plant two \|$/m);
    expect(Object.keys((JSON.parse(compareJson(columns)) as { sets: object }).sets)).toEqual(['one', 'two']);
  });

  it('have cases, and no name twice', () => {
    const names = SETS.flatMap((set) => casesOf(set, false).map(({ name }) => name));
    expect(new Set(names).size).toBe(names.length);
  });
});
