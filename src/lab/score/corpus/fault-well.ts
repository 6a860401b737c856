/**
 * The well itself: it gives out, or is outrun, or its level nears the pump; a jet pump loses its
 * prime. Low current and no rise of pressure for a minute is dry running, and a submersible cooks
 * in less than half an hour of it.
 */
import type { CorpusCase, Fault } from '../case.ts';
import { byTimer, once, people } from './habits.ts';
import { faultyCase, growing, since, NOW_DEADLINE_MS } from './case-builders.ts';
import { EVERY_10_S, EVERY_1_S, EVERY_5_S, setup, type WellOptions } from './setup.ts';
import { at, hours, minutes } from './times.ts';

export function wellFaults(): CorpusCase[] {
  return [...dryRuns(), ...lostPrime(), ...outruns(), ...lowLevels(), ...starved(), ...sinking()];
}

/**
 * The level falls under the intake at 09:00; the hose takes the tank down within four minutes, the
 * pump starts and sucks air. Two minutes of low current and a pressure that goes on falling are
 * proof.
 */
function dryRuns(): CorpusCase[] {
  const beganMs = at(16, 9);
  const knowableMs = beganMs + minutes(7);
  const ways: { name: string; node: WellOptions['node'] }[] = [
    { name: 'second', node: EVERY_1_S },
    { name: 'five-seconds', node: EVERY_5_S },
    { name: 'ten-seconds', node: EVERY_10_S },
    // Low current alone: a closed valve looks much the same, and that must be said.
    { name: 'current-alone', node: { ...EVERY_1_S, withoutPressure: true } },
  ];
  return ways.map(({ name, node }, nth) =>
    faultyCase(`dry-run-${nth + 1}-${name}`, {
      about: 'the level has sunk under the intake and the pump sucks air',
      setup: setup({
        name: `arden-${nth}`,
        seed: 800 + nth,
        draws: [once(at(16, 9, 1), 50, 0.35)],
        ...(node && { node }),
      }),
      days: 17,
      schedule: since(beganMs, { levelFallM: 25 }),
      fault: {
        what: 'the water stands under the intake: the pump lifts none',
        family: `dry-run-${name}`,
        size: 1,
        alarms: ['dry-run', 'no-water'],
        causes: ['low-well', 'lost-prime', ...(name === 'current-alone' ? (['closed-valve'] as const) : [])],
        beganMs,
        knowableMs,
        byMs: knowableMs + NOW_DEADLINE_MS,
      },
      allowed: ['no-water', 'long-run'],
    }),
  );
}

/** A foot valve lets the prime go at night; the jet pump churns air at breakfast. */
function lostPrime(): CorpusCase[] {
  const beganMs = at(15, 7);
  const knowableMs = at(15, 7, 7);
  return [
    faultyCase('lost-prime-1', {
      about: 'the jet pump has lost its prime',
      setup: setup({
        name: 'shoal-cottage',
        seed: 810,
        size: 'jetHalfHp',
        cutInPsi: 20,
        cutOutPsi: 40,
        tankGal: 20,
        fixtures: people(2),
        draws: [once(at(15, 7, 1), 25, 0.2)],
        node: EVERY_1_S,
      }),
      days: 16,
      schedule: since(beganMs, { levelFallM: 25 }),
      fault: {
        what: 'the jet pump holds air and lifts nothing',
        family: 'lost-prime',
        size: 1,
        alarms: ['dry-run', 'no-water'],
        causes: ['lost-prime', 'low-well'],
        beganMs,
        knowableMs,
        byMs: knowableMs + NOW_DEADLINE_MS,
      },
      allowed: ['no-water', 'long-run'],
    }),
  ];
}

/**
 * The screen clogs: the well gives less than the pump takes, so in each long watering the level is
 * drawn to the intake, flow and current break, and come back while it rests. Short runs hide it;
 * three evenings of watering show it.
 */
function outruns(): CorpusCase[] {
  const sizes = [
    { yieldLost: 0.88, also: [] },
    { yieldLost: 0.92, also: ['level'] },
    { yieldLost: 0.92, also: [] },
  ];
  return sizes.map(({ yieldLost, also }, size) => {
    const beganMs = at(14);
    return faultyCase(`pump-outruns-well-${size + 1}`, {
      about: 'the well gives less than the pump takes, and is drawn down in each long watering',
      setup: setup({
        name: `bramley-${size}`,
        seed: 820 + size,
        use: ['house', 'irrigation'],
        draws: byTimer({ fromMs: at(0), days: 24, everyDays: 1, hour: 19, forMin: 75, lPerS: 0.45 }),
        node: { ...EVERY_5_S, extraChannels: also },
      }),
      days: 24,
      schedule: since(beganMs, { yieldLost }),
      fault: {
        what: `the well has lost ${Math.round(100 * yieldLost)} % of its yield`,
        family: also.length > 0 ? 'pump-outruns-well-level' : 'pump-outruns-well',
        size: size === 2 ? 2 : 1,
        alarms: [
          'dry-run',
          'level-low',
          'slow-fill',
          'no-water',
          'cut-out-not-reached',
          'long-run',
          'amps-low',
        ],
        causes: ['low-well'],
        beganMs,
        knowableMs: at(14, 20, 30),
        byMs: at(size === 0 ? 19 : 16, 22),
      } satisfies Fault,
      allowed: ['no-water'],
    });
  });
}

/** A level sensor sees the water come near the pump, over weeks or in a dry night. */
function lowLevels(): CorpusCase[] {
  return [
    { fallM: 14, untilMs: at(35), knowableMs: at(28), byMs: at(36) },
    { fallM: 15.5, untilMs: at(16), knowableMs: at(16), byMs: at(18) },
  ].map(({ fallM, untilMs, knowableMs, byMs }, size) => {
    const beganMs = at(14);
    return faultyCase(`level-low-${size + 1}`, {
      about: `the water table falls by ${fallM} m`,
      setup: setup({
        name: `cawthorn-${size}`,
        seed: 830 + size,
        node: { ...EVERY_5_S, extraChannels: ['level'] },
      }),
      days: size === 0 ? 39 : 21,
      schedule: growing(beganMs, untilMs, (share) => ({ levelFallM: fallM * share })),
      fault: {
        what: `the level at rest falls from 18 m to ${18 - fallM} m over the intake`,
        family: 'level-low',
        size: size + 1,
        alarms: ['level-low', 'slow-fill', 'amps-low', 'dry-run'],
        causes: ['low-well'],
        beganMs,
        knowableMs,
        byMs,
      } satisfies Fault,
    });
  });
}

/**
 * More is drawn than the pump gives: taps run dry while the pump runs. Under 5 psi for a minute is
 * `no-water` by itself.
 */
function starved(): CorpusCase[] {
  return [1.6, 2.6].map((lPerS, size) => {
    const beganMs = at(16, 13);
    // 70 L of tank are gone within a minute or two, pressure stands at two or three psi, and a
    // minute of that is no water.
    const knowableMs = beganMs + minutes([4, 3][size]!);
    return faultyCase(`pump-starved-${size + 1}`, {
      about: 'a hydrant is opened that takes more than the pump gives',
      setup: setup({
        name: `denholm-${size}`,
        seed: 840 + size,
        size: 'halfHp',
        cutInPsi: 30,
        cutOutPsi: 50,
        draws: [once(at(16, 13), 90, lPerS)],
        node: EVERY_1_S,
      }),
      days: 17,
      fault: {
        what: `${lPerS} L/s are drawn and the pump gives 0.4`,
        family: 'pump-starved',
        size: size + 1,
        alarms: ['no-water', 'long-run', 'cut-out-not-reached', 'dry-run'],
        causes: ['open-tap', 'broken-pipe', 'low-well', 'leak'],
        beganMs,
        knowableMs,
        byMs: knowableMs + NOW_DEADLINE_MS,
      },
    });
  });
}

/**
 * No level sensor: the table sinks and each fill is slower. A worn pump looks the same from here.
 */
function sinking(): CorpusCase[] {
  return [8, 14].map((fallM, size) => {
    const beganMs = at(14);
    return faultyCase(`table-sinks-${size + 1}`, {
      about: `the water table sinks by ${fallM} m within three weeks`,
      setup: setup({ name: `eskdale-${size}`, seed: 850 + size, fixtures: people(5) }),
      days: 45,
      schedule: growing(beganMs, at(35), (share) => ({ levelFallM: fallM * share })),
      fault: {
        what: `the water stands ${fallM} m lower`,
        family: 'table-sinks',
        size: size + 1,
        alarms: ['slow-fill', 'amps-low', 'level-low'],
        causes: ['low-well', 'worn-pump'],
        beganMs,
        knowableMs: at([32, 26][size]!),
        byMs: at([43, 38][size]!) + hours(1),
      },
    });
  });
}
