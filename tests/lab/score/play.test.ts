/** A few short cases through the whole line; not the scoreboard, which `npm run score` makes. */
import { describe, expect, it } from 'vitest';
import type { Condition } from '../../../src/lab/plant/params.ts';
import { drawWell } from '../../../src/lab/second-plant/corpus/draw-well.ts';
import { playCase } from '../../../src/lab/score/play.ts';
import { quantile } from '../../../src/lab/score/histogram.ts';
import { scoreCase } from '../../../src/lab/score/score-case.ts';
import { CARD, FROM_MS, houseCase, NODE } from '../support/corpus-cases.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const since = (fromMs: number, condition: Partial<Condition>) => (tMs: number) =>
  tMs >= fromMs ? condition : {};
const score = (more: Parameters<typeof houseCase>[0]) => scoreCase(houseCase(more));

describe('a case', () => {
  it.each([
    { how: 'each second', node: NODE, days: 1 },
    { how: 'each five seconds', node: { ...NODE, everyS: 5, packS: 60 }, days: 2 },
    { how: 'by exception', node: { ...NODE, everyS: 0, packS: 60 }, days: 2 },
    { how: 'without a clock', node: { ...NODE, everyS: 5, clock: 'none' as const }, days: 2 },
    {
      how: 'with an outage, a restart and a power cut',
      node: {
        ...NODE,
        everyS: 5,
        outages: [{ fromMs: FROM_MS + 8 * HOUR_MS, untilMs: FROM_MS + 12 * HOUR_MS }],
        reboots: [{ atMs: FROM_MS + 15 * HOUR_MS, downS: 30 }],
        powerCuts: [{ fromMs: FROM_MS + 30 * HOUR_MS, untilMs: FROM_MS + 32 * HOUR_MS, lastGasp: true }],
      },
      days: 3,
    },
  ])('read $how gives all its runs and nothing else', ({ node, days }) => {
    const { measures, falseAlarms, faults } = score({ node, days });
    expect(measures.cycles.required).toBeGreaterThan(3 * days);
    expect(measures.cycles.found).toBe(measures.cycles.required);
    expect(measures.cycles.extra).toBe(0);
    // One reading: a clamp that averages shows a part of a start that falls into its second.
    expect(quantile(measures.startReadings, 0.99)).toBeLessThan(1.1);
    expect(quantile(measures.litres, 0.5)).toBeLessThan(0.1);
    expect(measures.usedDay.n).toBeGreaterThan(0);
    expect(falseAlarms).toEqual([]);
    expect(faults).toEqual([]);
  });

  it('with welded contacts is told, and the well before it is silent', () => {
    const beganMs = FROM_MS + 9.3 * DAY_MS;
    const { plan } = houseCase();
    const { fault, falseAlarms } = score({
      is: 'fault',
      days: 10,
      node: { ...NODE, everyS: 10, packS: 60 },
      plan: { ...plan, schedule: since(beganMs, { stuckContacts: true }) },
      fault: {
        what: 'contacts welded',
        family: 'contacts-stuck',
        size: 1,
        alarms: ['over-pressure', 'long-run'],
        causes: ['switch-contacts-stuck'],
        beganMs,
        knowableMs: beganMs,
        byMs: FROM_MS + 10 * DAY_MS,
      },
    });
    expect(falseAlarms).toEqual([]);
    expect(fault).toMatchObject({ inTime: true, wrong: [] });
  });

  it('hands its acts over in their turn', () => {
    const acts = [
      { atMs: FROM_MS + HOUR_MS, act: { kind: 'visit-opened', well: 'house' } },
      { atMs: FROM_MS + 2 * HOUR_MS, act: { kind: 'visit-closed', well: 'house' } },
      { atMs: FROM_MS + 3 * HOUR_MS, act: { kind: 'visit-opened', well: 'nobody' } },
    ];
    expect(playCase(houseCase({ days: 0.25, acts })).remarks).toEqual([
      'acts not used: 1',
      expect.stringContaining('unknown well nobody'),
    ]);
  });

  it('may be of the second plant, which sees when its fault shows', () => {
    const { plan, card, node } = drawWell(11, { node: { everyS: 1, packS: 10 } });
    const beganMs = FROM_MS + 3_600_000;
    const played = playCase(
      houseCase({
        plan: { ...plan, showing: { is: 'run', sinceMs: beganMs, nth: 1, afterS: 5 } },
        card,
        node,
      }),
    );
    const first = played.truth.cycles.find(({ startedMs }) => startedMs >= beganMs)!;
    expect(played.shownMs! - first.startedMs).toBeLessThanOrEqual(6000);
    expect(played.cycles).toHaveLength(played.truth.cycles.length);
  });

  it.each([
    {
      what: 'a card that is wrong',
      more: { card: { ...CARD, control: 'magic' } },
      says: /^Cannot play house: .*magic/,
    },
    {
      what: 'a fault of which nothing is said',
      more: { is: 'fault' as const },
      says: /nothing says what is wrong/,
    },
    {
      what: 'a channel that no plant shows',
      more: { node: { ...NODE, extraChannels: ['flow'] } },
      says: /nothing in the plant shows flow/,
    },
  ])('is refused for $what', ({ more, says }) => {
    expect(() => score(more)).toThrow(says);
  });
});
