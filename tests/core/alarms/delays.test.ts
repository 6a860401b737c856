/**
 * On-delay, off-delay and deadband of each watch, beside the starting values of the alarm standards
 * (ANSI/ISA-18.2-2009, section 10.5, the same in IEC 62682; from memory, no public copy was found):
 * pressure and flow 15 s, level and temperature 60 s; for a current the inrush and one averaging
 * window, 10 s (common practice). A householder is told far less than an operator: what is gone
 * waits an hour at least before it can be told again, or the table says why not.
 */
import { describe, expect, it } from 'vitest';
import { CATALOGUE, type WatchedKind } from '../../../shared/alarms/catalogue.ts';
import type { Scene } from '../../../src/core/alarms/scene.ts';
import { WATCHES } from '../../../src/core/alarms/watches.ts';

const STANDARD_S = { pressure: 15, level: 60, temperature: 60, current: 10, news: 0 } as const;
/**
 * What a look adds by itself: a minute's robust low or high is of a whole minute, the least and the
 * most reading left out; a cycle is a whole run, a day a whole day.
 */
const LOOKS_S: Record<Scene['trigger'], number> = { minute: 60, cycle: 15, day: 86_400 };
const HOUR_S = 3600;

interface Row {
  from: keyof typeof STANDARD_S;
  /** What holds it on and off beside the delays. */
  by: string;
  /** Why it may be told again sooner than an hour after it went. */
  soon?: string;
}

const TABLE = {
  'long-run': { from: 'pressure', by: 'over cut-out 3 min, under cut-in 15 min, else hours; 2 psi' },
  'dry-run': { from: 'current', by: 'a minute of low current with pressure that falls or does not rise' },
  'failed-start': { from: 'current', by: 'a start without a run; goes after good runs' },
  'no-start': { from: 'pressure', by: '2 psi under cut-in for 2 min, 1 psi for 20' },
  'power-lost': { from: 'current', by: 'half of the voltage gone' },
  'leg-lost': { from: 'current', by: 'a line under a tenth of the others; back at over as much' },
  'no-water': { from: 'pressure', by: 'under 35 kPa; back 2 psi over' },
  'no-run': {
    from: 'current',
    by: 'hours to days',
    soon: 'the next run ends it, and the next rest must be as long again',
  },
  'store-low': { from: 'level', by: '5 % of what it moves through' },
  'over-pressure': { from: 'pressure', by: '10 s; back 2 psi under' },
  'short-cycling': { from: 'current', by: 'six runs; goes half a day after' },
  'starts-over-limit': { from: 'current', by: 'counted by the day', soon: 'a day within the limit ends it' },
  'amps-high': { from: 'current', by: 'twelve runs; back at 0.6 of the limit' },
  'amps-low': { from: 'current', by: 'twelve runs; back at 0.6 of the limit' },
  'leg-imbalance': { from: 'current', by: 'runs; back under the limit by a share' },
  'supply-voltage': { from: 'current', by: '5 min' },
  'cut-out-not-reached': { from: 'pressure', by: 'runs, or one for an hour and more' },
  'slow-fill': { from: 'pressure', by: '72 h of runs at 0.88, 36 h at 0.8; back at 0.96' },
  'level-low': { from: 'level', by: '2 min; back 0.3 m over' },
  'tank-air-lost': { from: 'pressure', by: 'fills; 0.82 on, 0.88 off' },
  'tank-overcharged': { from: 'pressure', by: 'fills' },
  leak: {
    from: 'pressure',
    by: 'quiet stretches of days, or 20 h without a still one',
    soon: 'days without it end it',
  },
  'freeze-risk': { from: 'temperature', by: '10 min; a winter is one' },
  'switch-shift': { from: 'pressure', by: 'eight runs; back at 0.6 of the limit' },
  'cycle-count': {
    from: 'current',
    by: 'days',
    soon: 'a day of the usual ends it, and two or five of another kind begin it',
  },
  'node-silent': {
    from: 'news',
    by: 'its own longest silence',
    soon: 'what is heard is not silent, and its silence must be as long again',
  },
  'node-conflict': { from: 'news', by: 'both boxes heard' },
  'sensor-fault': { from: 'pressure', by: 'a minute of faults and more' },
} satisfies Record<WatchedKind, Row>;

describe('delays', () => {
  it('each watch is in the table', () => {
    expect(WATCHES.map((watch) => watch.alarm).sort()).toEqual(Object.keys(TABLE).sort());
  });
  it.each(WATCHES.map((watch) => [watch.alarm, watch] as const))('%s', (alarm, watch) => {
    const row: Row = TABLE[alarm];
    const { onS, offS } = CATALOGUE[alarm].delays;
    const looksS = Math.min(...watch.triggers.map((why) => LOOKS_S[why]));
    expect(onS + looksS).toBeGreaterThanOrEqual(STANDARD_S[row.from]);
    if (row.soon === undefined) expect(offS).toBeGreaterThanOrEqual(HOUR_S);
    else expect(offS).toBeLessThan(HOUR_S);
    expect(row.by.length).toBeGreaterThan(0);
  });
});
