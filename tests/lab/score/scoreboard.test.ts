import { describe, expect, it } from 'vitest';
import type { AlarmEvent } from '../../../shared/api/events.ts';
import { heaviest, buildScoreboard } from '../../../src/lab/score/scoreboard.ts';
import type { CorpusCase } from '../../../src/lab/score/case.ts';
import { figuresOf, formatDuration } from '../../../src/lab/score/figures.ts';
import { judge, type FaultResult } from '../../../src/lab/score/judge.ts';
import { newMeasures } from '../../../src/lab/score/measures.ts';
import { boardMarkdown, boardObject, boardText, casesText } from '../../../src/lab/score/print.ts';
import type { CaseScore } from '../../../src/lab/score/score-case.ts';
import { addTo } from '../../../src/lab/score/histogram.ts';
import { faultCase, FROM_MS, houseCase, played, raised } from '../support/corpus-cases.ts';

const score = (name: string, corpusCase: CorpusCase, alarms: AlarmEvent[]): CaseScore => ({
  name,
  is: corpusCase.is,
  fromMs: FROM_MS,
  years: 1,
  healthyYears: corpusCase.is === 'healthy' ? 1 : 0,
  ...judge(corpusCase, played(alarms)),
  measures: newMeasures(),
  readings: 1_000_000,
  remarks: [],
  faults: [],
});

describe('the scoreboard', () => {
  const scores = [
    score('sound', houseCase(), [raised('leak', 5000, ['leak'])]),
    score('half-air', faultCase(), [raised('tank-air-lost', 3000, ['tank-air-lost']), raised('leak', 4000)]),
    score('less-air', faultCase({ size: 2, measure: 'tank-half' }), []),
    score('card', { ...faultCase({ alarms: ['sensor-fault'], causes: ['bad-card'] }), is: 'bad-input' }, [
      raised('sensor-fault', 3000, ['bad-card']),
      raised('dry-run', 4000),
    ]),
  ];
  const board = buildScoreboard(scores);
  const figures = new Map(figuresOf(board).map((figure) => [figure.name, figure]));

  it.each([
    { name: 'recall', value: 0.5, met: false },
    { name: 'recallHeaviest', value: 0.5, met: false },
    { name: 'tankHalf', value: 0, met: false },
    { name: 'falseAlarmsAYear', value: 1, met: false },
    { name: 'falseAlarmsOfOneKind', value: 1, met: undefined },
    { name: 'alarmsAFault', value: 2, met: false },
    { name: 'wrongAFault', value: 0.5, met: undefined },
    { name: 'badInput', value: 1, met: true },
    { name: 'badInputWrong', value: 1, met: false },
    { name: 'causeFirst', value: 1, met: true },
    { name: 'ampsStep', value: undefined, met: undefined },
  ])('$name is $value', ({ name, value, met }) => {
    expect(figures.get(name)).toMatchObject({ name });
    expect(figures.get(name)!.value).toBe(value);
    expect(figures.get(name)!.met).toBe(met);
  });

  it('has a row for each alarm that was right or raised', () => {
    expect(
      board.rows.map(({ alarm, faults, found, falseAlarms, wrong }) => [
        alarm,
        faults,
        found,
        falseAlarms,
        wrong,
      ]),
    ).toEqual([
      ['tank-air-lost', 2, 1, 0, 0],
      ['leak', 0, 0, 1, 1],
    ]);
  });

  it('prints a table, Markdown and one object of the same figures', () => {
    const all = [...figures.values()];
    expect(boardText(board, all)).toMatch(/^faults found +0\.500 \(1 of 2\) +>= 0\.98 +missed$/m);
    expect(boardMarkdown(board, all)).toMatch(
      /^\| faults found \| 0\.500 \(1 of 2\) \| >= 0\.98 \| missed \|$/m,
    );
    const json = boardObject(board, all);
    expect(json).toMatchObject({
      cases: 4,
      figures: { recall: { value: 0.5, target: '>= 0.98', met: false } },
    });
  });

  it('tells each miss, false alarm and wrong word with its case', () => {
    const text = casesText(scores);
    expect(text).toContain(
      'sound (healthy)\n  FALSE leak 2026-03-02T01:23 (day 0.06) [leak]: it is so since 5000',
    );
    expect(text).toContain('less-air (fault)\n  MISSED tank-air-lost: half of the air is gone');
    expect(text).toContain('  WRONG leak');
  });

  it('tells numbers that are far off, but not where the input was bad', () => {
    const measures = newMeasures();
    for (let i = 0; i < 10; i++) addTo(measures.litres, i < 5 ? 0.02 : 0.2);
    const far = { ...score('far', houseCase(), []), measures };
    expect(casesText([far])).toMatch(
      /^far \(healthy\)\n {2}FAR OFF liters a run, ratio: 90 % within 0\.20\d, median 0\.020\n$/,
    );
    expect(casesText([{ ...far, is: 'bad-input' }])).toBe('');
  });

  it('takes the two heaviest sizes of each family', () => {
    const of = (family: string, size: number): FaultResult => ({
      family,
      size,
      what: '',
      alarm: 'leak',
      isNow: false,
      inTime: true,
      alarms: 1,
      wrong: [],
    });
    const found = [of('a', 1), of('a', 2), of('a', 3), of('a', 3), of('b', 1)];
    expect(heaviest(found).map(({ family, size }) => `${family}${size}`)).toEqual(['a2', 'a3', 'a3', 'b1']);
  });

  it.each([
    { ms: undefined, text: '-' },
    { ms: 45_000, text: '45 s' },
    { ms: 600_000, text: '10 min' },
    { ms: 36_000_000, text: '10.0 h' },
    { ms: 864_000_000, text: '10.0 d' },
  ])('prints $ms ms as $text', ({ ms, text }) => {
    expect(formatDuration(ms)).toBe(text);
  });
});
