import { describe, expect, it } from 'vitest';
import type { CycleEvent } from '../../../shared/api/events.ts';
import { matchCycles, readingsOff } from '../../../src/lab/score/match.ts';
import type { Gap } from '../../../src/lab/score/node.ts';
import type { TrueCycle } from '../../../src/lab/plant/params.ts';
import { at, cycle, FROM_MS, run } from '../support/corpus-cases.ts';

const DAY_S = 86_400;

describe('matchCycles', () => {
  const rows: {
    what: string;
    truth: TrueCycle[];
    said: CycleEvent[];
    unheard?: Gap[];
    everyMs?: number;
    asked: number;
    found: number;
    extra: number;
  }[] = [
    {
      what: 'a run that was found',
      truth: [run(100, 160)],
      said: [cycle(100, 160)],
      asked: 1,
      found: 1,
      extra: 0,
    },
    { what: 'a run that was missed', truth: [run(100, 160)], said: [], asked: 1, found: 0, extra: 0 },
    { what: 'a cycle without a run', truth: [], said: [cycle(100, 160)], asked: 0, found: 0, extra: 1 },
    {
      what: 'a run said as two',
      truth: [run(100, 160)],
      said: [cycle(100, 120), cycle(130, 160)],
      asked: 1,
      found: 1,
      extra: 1,
    },
    {
      what: 'two runs said as one',
      truth: [run(100, 130), run(140, 160)],
      said: [cycle(100, 160)],
      asked: 2,
      found: 1,
      extra: 0,
    },
    {
      what: 'two readings are too few to ask',
      truth: [run(100.5, 102.5)],
      said: [],
      asked: 0,
      found: 0,
      extra: 0,
    },
    {
      what: 'found all the same, it is not false',
      truth: [run(100.5, 102.5)],
      said: [cycle(101, 103)],
      asked: 0,
      found: 0,
      extra: 0,
    },
    {
      what: 'a rest of one reading parts no runs',
      truth: [run(100, 130), run(131.5, 160)],
      said: [cycle(100, 160)],
      asked: 0,
      found: 0,
      extra: 0,
    },
    {
      what: 'three readings at one in ten seconds',
      truth: [run(101, 125)],
      said: [],
      everyMs: 10_000,
      asked: 0,
      found: 0,
      extra: 0,
    },
    {
      what: 'what falls into an outage of the node',
      truth: [run(100, 160)],
      said: [cycle(300, 320)],
      unheard: [{ fromMs: at(150), untilMs: at(310) }],
      asked: 0,
      found: 0,
      extra: 0,
    },
    {
      what: 'the other pump is another pump',
      truth: [run(100, 160, { pump: 1 })],
      said: [cycle(100, 160)],
      asked: 1,
      found: 0,
      extra: 1,
    },
    {
      what: 'a clamp that shows nothing shows no run',
      truth: [run(100, 160, { amps: 0 })],
      said: [],
      asked: 0,
      found: 0,
      extra: 0,
    },
  ];

  it.each(rows)('$what', ({ truth, said, unheard = [], everyMs = 1000, ...wanted }) => {
    const { matches, unmatched } = matchCycles({
      truth,
      reported: said,
      gaps: unheard,
      everyMs,
      fromMs: FROM_MS,
      untilMs: at(DAY_S),
    });
    const asked = matches.filter((match) => match.required);
    expect({
      asked: asked.length,
      found: asked.filter((match) => match.reported).length,
      extra: unmatched.length,
    }).toEqual({ asked: wanted.asked, found: wanted.found, extra: wanted.extra });
  });

  it.each([
    { reported: 101, truth: 100.4, off: 0 },
    { reported: 102, truth: 100.4, off: 1 },
    { reported: 100, truth: 100.4, off: 1 },
    { reported: 100, truth: 100, off: 0 },
    { reported: 101, truth: 100, off: 0 },
  ])('told $told of $truth is $off readings off', ({ reported, truth, off }) => {
    expect(readingsOff(at(reported), at(truth), 1000)).toBeCloseTo(off, 6);
  });
});
