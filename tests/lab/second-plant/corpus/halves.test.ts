/** The second plant's cases before any is played: labels in order, cards that can be read. */
import { describe, expect, it } from 'vitest';
import { ALARM_KINDS } from '../../../../shared/text/en/alarms/kinds.ts';
import { readCard } from '../../../../src/core/domain/read-card.ts';
import { amountFor, deliveredLPerS } from '../../../../src/lab/second-plant/corpus/operating-point.ts';
import { drawWell } from '../../../../src/lab/second-plant/corpus/draw-well.ts';
import { halfOf } from '../../../../src/lab/second-plant/corpus/halves.ts';

const DAY_MS = 86_400_000;
const tuned = halfOf('tuned', false);
const heldOut = halfOf('held-out', false);
const both = [...halfOf('tuned', true), ...halfOf('held-out', true)];
const namesWhere = (list: readonly { name: string }[]): string[] => list.map(({ name }) => name);

/** No watch of a well: the server says these of itself, or of several nodes. */
const NOT_OF_ONE_WELL = ['site-silent', 'not-watched'];
/** Labelled only beside a better one. */
const NEVER_THE_BEST = ['starts-over-limit', 'cut-out-not-reached', 'no-run'];

describe('halfOf', () => {
  it('has each name and seed once, and none of one half in the other', () => {
    expect(new Set(namesWhere(both)).size).toBe(both.length);
    expect(new Set(both.map(({ plan }) => plan.seed)).size).toBe(both.length);
  });

  it('has the same recipes in both halves, with other wells', () => {
    const families = (list: typeof tuned): unknown[] =>
      list.map(({ fault }) => fault && [fault.family, fault.size]);
    expect(families(tuned)).toEqual(families(heldOut));
    const depths = (list: typeof tuned): unknown[] =>
      list.map(({ plan }) => 'aquifer' in plan && plan.aquifer);
    expect(depths(tuned)).not.toEqual(depths(heldOut));
  });

  it('has cards that can be read, of the well that is played', () => {
    const wrong = both.flatMap(({ name, card, plan }) => {
      const read = readCard(card);
      if ('problem' in read) return [`${name}: ${read.problem}`];
      return read.card.well === plan.name ? [] : [name];
    });
    expect(wrong).toEqual([]);
  });

  it('lets wells be sound for fourteen days, and labels in order of time', () => {
    const wrong = both.filter(({ fromMs, days, fault }) => {
      if (!fault) return false;
      const { beganMs, knowableMs, byMs } = fault;
      const times = [fromMs + 14 * DAY_MS, beganMs, knowableMs, byMs, fromMs + days * DAY_MS];
      return times.some((ms, at) => !Number.isInteger(ms) || (at > 0 && ms < times[at - 1]!));
    });
    expect(namesWhere(wrong)).toEqual([]);
  });

  it('has a fault for every alarm that a well can find', () => {
    const shown = new Set(tuned.flatMap(({ fault }) => fault?.alarms ?? []));
    const missing = ALARM_KINDS.filter((kind) => !shown.has(kind) && !NOT_OF_ONE_WELL.includes(kind));
    expect(missing).toEqual([]);
    const best = new Set(tuned.flatMap(({ fault }) => fault?.alarms[0] ?? []));
    const second = ALARM_KINDS.filter((kind) => shown.has(kind) && !best.has(kind));
    expect(second.filter((kind) => !NEVER_THE_BEST.includes(kind))).toEqual([]);
  });
});

describe('drawWell', () => {
  it('puts a pump where it can reach its cut-out, over a well that is deep enough', () => {
    for (let seed = 1; seed < 200; seed++) {
      const { plan } = drawWell(seed);
      const [pump] = plan.pumps.pumps;
      const flow = deliveredLPerS(plan);
      expect(flow / pump!.bestLPerS).toBeGreaterThan(0.6);
      expect(flow / pump!.bestLPerS).toBeLessThan(1.4);
      expect(plan.aquifer.intakeM).toBeGreaterThan(plan.aquifer.staticLevelM + 5);
    }
  });
});

describe('amountFor', () => {
  it('finds how much of a fault takes a part of the flow', () => {
    const { plan } = drawWell(7);
    const ringLeak = amountFor(plan, 0.3, (amount) => ({ ringLeak: amount }));
    expect(deliveredLPerS(plan, { ringLeak }) / deliveredLPerS(plan)).toBeCloseTo(0.7, 6);
  });
});
