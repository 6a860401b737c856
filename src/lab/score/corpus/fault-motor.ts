/**
 * The motor: more current at the same load, a start that fails, an overload that trips. Where volts
 * are measured, four per cent is a step that forty runs prove; where they are not, the supply may
 * be the reason, and only more than it ever does can be told.
 */
import type { CorpusCase, Fault } from '../case.ts';
import { once, people } from './habits.ts';
import { faultyCase, growing, since, NOW_DEADLINE_MS } from './case-builders.ts';
import { EVERY_10_S, EVERY_1_S, EVERY_5_S, setup } from './setup.ts';
import { at, hours, minutes } from './times.ts';

export function motorFaults(): CorpusCase[] {
  return [
    ...dragSteps(),
    ...slowDrags(),
    ...failedStarts(),
    ...overloadTrips(),
    ...ampsLowSteps(),
    protectorWaits(),
  ];
}

/**
 * Rubbing bearings or a shorted turn: a step of current. A house of five makes some twenty runs a
 * day, so a step is seen at once and proved within two days; without volts a step under 4 % may be
 * the supply, and one of 6 % wants a week of days to part from its wander. Drag slows the shaft
 * too, so the current rises by five sixths of it.
 */
function dragSteps(): CorpusCase[] {
  const sizes = [
    { percent: 4, drag: 0.05, unmeasuredDrag: 0.07, byDays: 4, unmeasuredByDays: 12 },
    { percent: 8, drag: 0.095, unmeasuredDrag: 0.11, byDays: 3, unmeasuredByDays: 7 },
    { percent: 20, drag: 0.24, unmeasuredDrag: 0.24, byDays: 1.5, unmeasuredByDays: 3 },
  ];
  return sizes.flatMap(({ drag, unmeasuredDrag, byDays, unmeasuredByDays, ...rest }, size) =>
    [true, false].map((measured, nth) => {
      const percent = measured ? rest.percent : [6, 9, 20][size]!;
      const beganMs = at(15, 4);
      const days = measured ? byDays : unmeasuredByDays;
      return faultyCase(`amps-step-${size + 1}-${measured ? 'volts' : 'no-volts'}`, {
        about: `the motor draws ${percent} % more from one night on`,
        setup: setup({
          name: `linden-${size}${nth}`,
          seed: 400 + 10 * size + nth,
          fixtures: people(5),
          tankGal: 44,
          node: measured ? { ...EVERY_5_S, extraChannels: ['voltage'] } : EVERY_5_S,
        }),
        days: 15 + unmeasuredByDays + 2,
        schedule: since(beganMs, { drag: measured ? drag : unmeasuredDrag }),
        fault: {
          what: `running current stepped up by ${percent} %`,
          family: measured ? 'amps-step-volts' : 'amps-step-no-volts',
          size: size + 1,
          alarms: ['amps-high'],
          causes: measured ? ['failing-motor', 'sand'] : ['failing-motor', 'supply-voltage', 'sand'],
          beganMs,
          knowableMs: beganMs + at(0.4 * days) - at(0),
          byMs: beganMs + at(days) - at(0),
          ...(measured && { withinCycles: 40, measure: 'amps-step' as const }),
        },
      });
    }),
  );
}

/**
 * Bearings wear: to 9, 13 or 25 % of current. Known at 6 %, to be told before 8 % (volts measured),
 * or before it is twice that.
 */
function slowDrags(): CorpusCase[] {
  const sizes = [
    { percent: 9, drag: 0.11, overDays: 60, measured: true },
    { percent: 13, drag: 0.16, overDays: 50, measured: true },
    { percent: 25, drag: 0.3, overDays: 45, measured: false },
  ];
  return sizes.map(({ percent, drag, overDays, measured }, size) => {
    const beganMs = at(14);
    const untilMs = at(14 + overDays);
    const whenAt = (share: number): number => beganMs + (untilMs - beganMs) * Math.min(1, share / drag);
    return faultyCase(`amps-drift-${size + 1}`, {
      about: `bearings wear until the motor draws ${percent} % more`,
      setup: setup({
        name: `maple-${size}`,
        seed: 430 + size,
        fixtures: people(4),
        node: measured ? { ...EVERY_10_S, extraChannels: ['voltage'] } : EVERY_10_S,
      }),
      days: 14 + overDays + 12,
      schedule: growing(beganMs, untilMs, (share) => ({ drag: drag * share })),
      fault: {
        what: `running current creeps up by ${percent} % within ${overDays} days`,
        family: 'amps-drift',
        size: size + 1,
        alarms: ['amps-high'],
        causes: measured ? ['failing-motor', 'sand'] : ['failing-motor', 'supply-voltage', 'sand'],
        beganMs,
        knowableMs: whenAt(0.072),
        byMs: whenAt(measured ? 0.096 : 0.17),
        ...(measured && { measure: 'amps-drift' as const }),
      },
    });
  });
}

/**
 * The motor hums and does not turn: locked current until the overload opens, again and again.
 * Somebody waters the garden, so pressure reaches cut-in within four minutes; the second vain
 * start, with pressure still under cut-in, is no accident.
 */
function failedStarts(): CorpusCase[] {
  const ways = [
    { name: 'hums-long', lockedForS: 12, failsToStartS: 90, everyS: 5 },
    { name: 'trips-at-once', lockedForS: 3, failsToStartS: 120, everyS: 1 },
    { name: 'ten-seconds', lockedForS: 20, failsToStartS: 150, everyS: 10 },
  ];
  return ways.map(({ name, lockedForS, failsToStartS, everyS }, nth) => {
    const beganMs = at(16, 9);
    const knowableMs = beganMs + minutes(5) + 1000 * (failsToStartS + 2 * lockedForS);
    return faultyCase(`failed-start-${nth + 1}-${name}`, {
      about: 'the motor does not start any more',
      setup: setup({
        name: `nettle-${nth}`,
        seed: 440 + nth,
        draws: [once(at(16, 9, 1), 60, 0.33)],
        node: { ...EVERY_1_S, everyS },
      }),
      days: 17,
      schedule: since(beganMs, { failsToStartS, lockedForS }),
      fault: {
        what: 'the rotor stays locked and the overload opens, again and again',
        family: `failed-start-${name}`,
        size: 1,
        alarms: ['failed-start', 'no-water', 'no-start'],
        causes: ['stuck-rotor', 'failing-capacitor', 'overload-tripping'],
        beganMs,
        knowableMs,
        byMs: knowableMs + NOW_DEADLINE_MS,
      },
    });
  });
}

/**
 * The overload opens some minutes into a long run and closes by itself when it has cooled: the
 * circuit is dead for a quarter of an hour each time, pressure falls under cut-in, and the motor
 * drew a fifth more before. Somebody waters for three hours.
 */
function overloadTrips(): CorpusCase[] {
  const beganMs = at(16, 8);
  const trips = [0, 1, 2, 3].map((nth) => ({
    fromMs: at(16, 8, 20) + nth * minutes(40),
    untilMs: at(16, 8, 35) + nth * minutes(40),
  }));
  // First trip at 08:20; the hose takes what the tank holds within three minutes, and two minutes
  // under cut-in say that nothing starts.
  const knowableMs = at(16, 8, 26);
  return [
    faultyCase('overload-trips-1', {
      about: 'the overload trips during a long run, four times in a morning',
      setup: setup({
        name: 'old-forge',
        seed: 450,
        size: 'oneAndHalfHp',
        draws: [once(at(16, 8, 1), 180, 0.42)],
      }),
      days: 18,
      schedule: (tMs) =>
        tMs < beganMs
          ? {}
          : { drag: 0.22, circuitDead: trips.some(({ fromMs, untilMs }) => tMs >= fromMs && tMs < untilMs) },
      fault: {
        what: 'the overload trips and comes back by itself; the motor draws a fifth too much',
        family: 'overload-trips',
        size: 1,
        alarms: ['no-start', 'failed-start', 'amps-high', 'no-water'],
        causes: ['overload-tripping', 'protector-waiting', 'failing-motor', 'breaker-open', 'power-lost'],
        beganMs,
        knowableMs,
        byMs: knowableMs + NOW_DEADLINE_MS,
      },
      allowed: ['no-water', 'power-lost'],
    }),
  ];
}

/**
 * Less current at the same work: a clamp whose jaws no longer close, or the pump has lost a stage.
 */
function ampsLowSteps(): CorpusCase[] {
  return [0.94, 0.85, 0.6].map((clampGain, size) => {
    const beganMs = at(15, 12);
    return faultyCase(`amps-low-${size + 1}`, {
      about: `the clamp reads ${Math.round(100 * (1 - clampGain))} % less; its jaws no longer close`,
      setup: setup({
        name: `orchard-${size}`,
        seed: 460 + size,
        fixtures: people(5),
        tankGal: 44,
        node: { ...EVERY_5_S, extraChannels: ['voltage'] },
      }),
      days: 24,
      schedule: since(beganMs, { clampGain }),
      fault: {
        what: `current reads ${Math.round(100 * (1 - clampGain))} % low while the pump delivers as before`,
        family: 'amps-low-step',
        size: size + 1,
        alarms: ['amps-low', 'sensor-fault'],
        // The fill is as fast as ever, so the pump has lost nothing; what else lowers current alone
        // is the clamp.
        causes: ['clamp-off', ...(size === 0 ? (['worn-pump'] as const) : [])],
        beganMs,
        knowableMs: beganMs + at(0.5) - at(0),
        byMs: beganMs + at([5, 3, 1.5][size]!) - at(0),
      } satisfies Fault,
    });
  });
}

/**
 * A protector waits out its time after each dry run: no current although pressure calls. Its time
 * stands on the card.
 */
function protectorWaits(): CorpusCase {
  const base = setup({
    name: 'quarry-edge',
    seed: 470,
    draws: [once(at(16, 8), 150, 0.4)],
    card: {
      pump: {
        kind: 'submersible',
        motor: '1 hp',
        volts: '230 V',
        phase: 1,
        maxAmps: '9.8 A',
        protector: { restart: '20 min' },
      },
    },
  });
  const [pump] = base.plan.pumps.pumps;
  const beganMs = at(16, 6);
  // The bore holds four metres and gives a tenth of the draw: sucked dry within a quarter of an
  // hour, the protector opens in seconds.
  const knowableMs = at(16, 8, 40);
  return faultyCase('protector-waits-1', {
    about: 'the well gives out, and a protector stops the pump and tries again each 20 min',
    setup: {
      ...base,
      plan: {
        ...base.plan,
        pumps: {
          how: 'one',
          pumps: [{ ...pump!, protector: { belowAmps: 5.2, afterS: 10, restartS: 1200 } }],
        },
      },
    },
    days: 18,
    schedule: since(beganMs, { yieldLost: 0.93, levelFallM: 10 }),
    fault: {
      what: 'the well is pumped dry; the protector stops the pump and waits',
      family: 'protector-waits',
      size: 1,
      alarms: ['dry-run', 'no-start', 'no-water', 'failed-start'],
      causes: ['low-well', 'protector-waiting'],
      beganMs,
      knowableMs,
      byMs: knowableMs + hours(1),
    },
    allowed: ['no-water', 'no-start', 'level-low'],
  });
}
