/** The checks of the first hour: what each says of a card and a handful of runs. */
import { describe, expect, it } from 'vitest';
import { CHECK_KINDS, CHECK_WORDS } from '../../../../shared/text/en/checks/checks.ts';
import type { Card } from '../../../../src/core/domain/card.ts';
import type { Cycle } from '../../../../src/core/cycles/cycle.ts';
import { runFirstChecks } from '../../../../src/core/alarms/first-hour/first-checks.ts';
import type { Scene } from '../../../../src/core/alarms/scene.ts';
import { houseCard, PSI } from '../scene-kit.ts';

interface Shown {
  /** The air charge as the fills show it. */
  airKpa?: number;
  runs?: number;
  amps?: number;
  legs?: readonly [number, number];
  volts?: number;
  band?: readonly [number, number];
  ranS?: number;
  idle?: number;
  /** The water gave out in each run. */
  dry?: boolean;
}

function sceneOf(card: Card, shown: Shown): Scene {
  const { runs = 5, amps = 8, legs, volts, band = [40, 60], ranS = 80, idle = 0, dry } = shown;
  const cycles = Array.from({ length: runs }, (_, at): Cycle => ({
    pump: 0,
    startedMs: at * 3_600_000,
    stoppedMs: at * 3_600_000 + ranS * 1000,
    ranS,
    readings: ranS,
    flags: [],
    amps,
    ...(dry && { loadLoss: { atS: 20, ratio: 0.6 } }),
    ...(legs && { amps2: legs[0], amps3: legs[1] }),
    ...(volts !== undefined && { volts }),
    cutInKpa: band[0] * PSI,
    cutOutKpa: band[1] * PSI,
  }));
  const pump = { index: 0, card: card.pumps[0]!, idleAmps: idle, cycles };
  return {
    atMs: runs * 3_600_000,
    trigger: 'minute',
    well: { card, water: shown.airKpa === undefined ? {} : { prechargeKpa: shown.airKpa } },
    pump,
    pumps: [pump],
  } as unknown as Scene;
}

/** Checks that differ (`!` where it is impossible) or wait (`?`); what agrees is left out. */
function says(card: Card, shown: Shown = {}): string[] {
  return runFirstChecks(sceneOf(card, shown))
    .filter(({ state }) => state !== 'agrees')
    .map(({ what, state, impossible }) => `${what}${impossible ? '!' : state === 'differs' ? '' : '?'}`);
}

/** 10 gpm fills this tank (44 gal, 38 psi) from 40 to 60 psi in 68 s. */
const whole = houseCard({ timeZone: 'America/Denver', pump: { ratedLPerS: 0.631 } });
const withPump = (pump: object): Card => ({ ...whole, pumps: [{ ...whole.pumps[0]!, ...pump }] });
const withTank = (tank: object): Card => ({ ...whole, tank: { ...whole.tank!, ...tank } });
const withSwitch = (cutIn: number, cutOut: number): Card => ({
  ...whole,
  switch: { cutInKpa: cutIn, cutOutKpa: cutOut },
});

describe('firstCheck', () => {
  it('waits for five runs', () => {
    expect(says(whole, { runs: 4 })).toEqual([
      'running-amps?',
      'clamp-place?',
      'volts?',
      'pressure-unit?',
      'pressure-moves?',
      'cut-in?',
      'cut-out?',
      'tank-fill?',
    ]);
  });

  it.each<[string, Card, Shown, string[]]>([
    ['a well as its card says', whole, { volts: 236 }, []],
    [
      'a well of which the card says nothing',
      { ...whole, switch: {}, pumps: [{ id: 'p1', control: 'pressure-switch' }] },
      {},
      ['running-amps?', 'pressure-unit?', 'cut-in?', 'cut-out?', 'tank-fill?'],
    ],
    ['half an amp at rest', whole, { idle: 0.5, volts: 236 }, ['current-at-rest']],
    [
      'half an amp at rest of a heater on the card',
      withPump({ alsoOnClamp: 'heater' }),
      { idle: 0.5, volts: 236 },
      [],
    ],
    ['a little over the service factor', whole, { amps: 11, volts: 236 }, ['running-amps']],
    ['twice the plate', whole, { amps: 18, volts: 236 }, ['running-amps!']],
    ['half of the plate, though it pumps', whole, { amps: 4.5, volts: 236 }, ['running-amps!']],
    [
      'the same where the well ran dry in each run',
      whole,
      { amps: 4.5, dry: true, volts: 236 },
      ['running-amps?'],
    ],
    [
      'the same behind a valve that throttles it to what is drawn',
      withPump({ control: 'constant-pressure-valve' }),
      { amps: 4.5, volts: 236 },
      ['running-amps'],
    ],
    [
      'a lead of the motor is not held against the plate',
      withPump({ clamp: 'red' }),
      { amps: 2, volts: 236 },
      ['running-amps?'],
    ],
    [
      'no plate: the table of 1 hp at 230 V, 8 A, widely',
      { ...whole, pumps: [{ ...withPump({}).pumps[0]!, maxAmps: undefined as never }] },
      { amps: 3, volts: 236 },
      ['running-amps'],
    ],
    ['three lines that differ by a fifth', withPump({ phase: 3 }), { legs: [8, 10.5], volts: 236 }, ['legs']],
    ['low voltage', whole, { volts: 200 }, ['volts']],
    ['one line to neutral', whole, { volts: 118 }, ['volts!']],
    [
      'psi sent as kilopascals',
      whole,
      { band: [40 / PSI, 60 / PSI], volts: 236 },
      ['pressure-unit!', 'cut-in', 'cut-out', 'precharge', 'tank-fill!'],
    ],
    [
      'a card in kPa for psi',
      { ...withSwitch(40, 60), tank: { kind: 'captive-air', volumeL: 167, prechargeKpa: 38 } },
      { volts: 236 },
      ['pressure-unit!', 'cut-in', 'cut-out', 'precharge'],
    ],
    [
      'a gauge that does not move',
      whole,
      { band: [42, 42.2], volts: 236 },
      ['pressure-moves', 'cut-out', 'tank-fill?'],
    ],
    [
      'a 30/50 switch on the card',
      { ...withSwitch(30 * PSI, 50 * PSI) },
      { volts: 236 },
      ['cut-in', 'cut-out!'],
    ],
    [
      'cut-out 5 psi over the card is a switch and no wrong card',
      whole,
      { band: [40, 65], volts: 236 },
      ['cut-out'],
    ],
    ['precharge over cut-in', withTank({ prechargeKpa: 45 * PSI }), { volts: 236 }, ['precharge!']],
    ['precharge far under it', withTank({ prechargeKpa: 25 * PSI }), { volts: 236 }, ['precharge']],
    ['the fills show that air is lost', whole, { volts: 236, airKpa: 20 * PSI }, ['precharge']],
    ['the fills show the air of the card', whole, { volts: 236, airKpa: 38 * PSI }, []],
    ['a tank of ten times its volume', withTank({ volumeL: 1670 }), { volts: 236 }, ['tank-fill!']],
    ['a tank of a tenth of it', withTank({ volumeL: 16 }), { volts: 236 }, ['tank-fill!']],
    ['fills of 15 s may be a tank without air', whole, { ranS: 15, volts: 236 }, ['tank-fill']],
    [
      'a plain tank has no precharge to judge',
      withTank({ kind: 'plain', prechargeKpa: 0 }),
      { volts: 236, ranS: 40 },
      [],
    ],
    ['no zone', { ...whole, timeZone: 'UTC' }, { volts: 236 }, ['time-zone?']],
    [
      'a drive holds its pressure and takes in what it likes',
      withPump({ control: 'variable-speed' }),
      { amps: 3, band: [50, 50], volts: 236 },
      ['running-amps?'],
    ],
    ['a float has no pressure to check', withPump({ control: 'float' }), { volts: 236 }, []],
  ])('%s', (_name, card, shown, expected) => {
    expect(says(card, shown)).toEqual(expected);
  });

  it('every check has its words', () => {
    for (const kind of CHECK_KINDS) {
      const { question, action, waitingFor } = CHECK_WORDS[kind];
      expect(question).toMatch(/\?$/);
      expect(action).toMatch(/\.$/);
      expect(waitingFor).not.toBe('');
    }
  });
});
