/** Motors and holes played from reading to alarm: what is told, when, and with which cause. */
import { describe, expect, it } from 'vitest';
import type { Cycle } from '../../../src/core/cycles/cycle.ts';
import { estimateOverpumping } from '../../../src/core/alarms/pump/overpumping.ts';
import type { Scene } from '../../../src/core/alarms/scene.ts';
import { playMotor } from './motor-well.ts';

/**
 * A supply whose voltage wanders by 2 % (one sigma), which moves the current of this motor by 1.4
 * %.
 */
const wandering = { days: 10, everyS: 10, wander: 0.1 } as const;

describe('amps and the supply', () => {
  it('a supply that wanders moves no amps alarm, measured or not', () => {
    expect(playMotor({ ...wandering, volts: true }).said).toEqual([]);
    expect(playMotor(wandering).said).toEqual([]);
  });

  it.each([
    ['up', 1.04, 'amps-high', 'failing-motor'],
    // At the same fills less current is the clamp's.
    ['down', 0.96, 'amps-low', 'clamp-off'],
  ])(
    'a step of 4 %% %s is found within forty runs where voltage is measured',
    (_way, share, alarm, cause) => {
      const { alarms, runsSince } = playMotor({
        ...wandering,
        volts: true,
        amps: (day) => (day < 7.5 ? 1 : share),
      });
      expect(alarms.map((event) => [event.alarm, event.causes?.[0]?.cause])).toEqual([[alarm, cause]]);
      expect(runsSince(7.5, alarms[0]!)).toBeLessThanOrEqual(40);
      expect(alarms[0]?.why).toContain('compared at one voltage');
    },
  );

  it('where it is not measured, more than the supply does at the same fills is the clamp', () => {
    const { alarms } = playMotor({ ...wandering, amps: (day) => (day < 7.5 ? 1 : 0.95) });
    expect(alarms[0]?.alarm).toBe('amps-low');
    expect(alarms[0]?.causes?.slice(0, 2).map(({ cause }) => cause)).toContain('clamp-off');
  });

  it('a drift is told before it reaches 8 %', () => {
    const { alarms } = playMotor({
      days: 21,
      everyS: 10,
      amps: (day) => 1 + (0.08 * Math.max(0, day - 6)) / 14,
    });
    const first = alarms.find((event) => event.alarm === 'amps-high');
    expect(first?.evidence?.['share']).toBeGreaterThan(0.03);
    expect(first?.evidence?.['share']).toBeLessThan(0.08);
  });
});

describe('a pump that outruns its well', () => {
  const thin = { days: 8, everyS: 5, holeL: 260, refillLPerS: 0.03 } as const;

  it('is no news while the runs are short', () => {
    expect(playMotor(thin).said).toEqual([]);
  });

  it('is told within two minutes of the break, with the well first and how long a run may be', () => {
    const { alarms, brokeMs } = playMotor({
      ...thin,
      draw: (day) => (day > 7 && (day * 24) % 4 < 0.5 ? 0.4 : 0),
    });
    const first = alarms[0]!;
    expect([first.alarm, first.causes?.[0]?.cause]).toEqual(['dry-run', 'low-well']);
    expect(Date.parse(first.at) - brokeMs()).toBeLessThanOrEqual(120_000);
    expect(alarms.map((event) => event.alarm)).toEqual(['dry-run']);
    expect(first.why).toMatch(
      /^The pump ran normally for \d min, then its current fell to 4.2 A, 52 % of its normal/,
    );
  });
});

describe('outrun', () => {
  /** Runs as `rest/ran` or `rest/ran!broke`, minutes. */
  const shown = (text: string): string => {
    let atMs = 0;
    const cycles = text.split(' ').map((part): Cycle => {
      const [, rest, ran, broke] = /^(\d+)\/(\d+)(?:!(\d+))?$/.exec(part)!;
      const startedMs = atMs + Number(rest) * 60_000;
      atMs = startedMs + Number(ran) * 60_000;
      return {
        pump: 0,
        startedMs,
        stoppedMs: atMs,
        ranS: Number(ran) * 60,
        restedS: Number(rest) * 60,
        readings: 60,
        flags: [],
        ...(broke !== undefined && { loadLoss: { atS: Number(broke) * 60, ratio: 0.55 } }),
      };
    });
    const found = estimateOverpumping({ pump: { cycles } } as unknown as Scene);
    if (!found) return 'nothing';
    const rest = found.restS === undefined ? '' : `, back after ${found.restS / 60} min`;
    return `limit ${found.limitS / 60} min${rest}`;
  };

  it.each([
    ['runs that end well say nothing', '60/2 30/5 240/20', 'nothing'],
    ['one break gives the limit', '60/2 240/20!14', 'limit 14 min'],
    [
      'the next run that lasts as long gives the rest',
      '60/2 240/20!14 10/6!3 130/16!13',
      'limit 13 min, back after 130 min',
    ],
    ['a break after a short rest is no measure of the limit', '300/20!14 5/3!1 200/4', 'limit 14 min'],
  ])('%s', (_name, text, words) => {
    expect(shown(text)).toBe(words);
  });
});
