/**
 * The supply: a breaker that is open, a site without power, a line of three that is dead or weak,
 * volts outside the motor's range. With volts measured (or a node that says its own supply is gone)
 * it is known in that second; from current and pressure alone only when the pump should start and
 * does not.
 */
import type { CorpusCase } from '../case.ts';
import { cattle, once } from './habits.ts';
import { between, faultyCase, since, NOW_DEADLINE_MS } from './case-builders.ts';
import { EVERY_1_S, EVERY_5_S, setup } from './setup.ts';
import { at, hours, minutes } from './times.ts';

export function supplyFaults(): CorpusCase[] {
  return [
    ...breakers(),
    ...sitePower(),
    ...lostLegs(),
    ...unevenLegs(),
    ...supplyVolts(),
    unmeasuredLowVolts(),
  ];
}

/**
 * The breaker opens at 07:00 and somebody waters from 07:01 at 0.35 L/s: 60 L of tank are out by
 * 07:04, two minutes later it is clear that nothing starts. With volts measured at the pump's
 * circuit it is known at 07:00.
 */
function breakers(): CorpusCase[] {
  const beganMs = at(16, 7);
  return ['volts', 'no-volts', 'pump-circuit'].map((way, nth) => {
    const knowableMs = way === 'volts' ? beganMs + minutes(1) : beganMs + minutes(7);
    return faultyCase(`breaker-open-${nth + 1}-${way}`, {
      about: 'the breaker of the pump is open',
      setup: setup({
        name: `pine-${nth}`,
        seed: 500 + nth,
        draws: [once(at(16, 7, 1), 45, 0.35)],
        node:
          way === 'volts'
            ? { ...EVERY_1_S, extraChannels: ['voltage'] }
            : way === 'pump-circuit'
              ? {
                  ...EVERY_5_S,
                  fedFrom: 'pump-circuit',
                  powerCuts: [{ fromMs: beganMs, untilMs: at(17, 12), lastGasp: false }],
                }
              : EVERY_5_S,
      }),
      days: 18,
      schedule: between(beganMs, at(17, 12), { circuitDead: true }),
      fault: {
        what: 'the breaker of the pump is open',
        family: `breaker-open-${way}`,
        size: 1,
        alarms:
          way === 'pump-circuit'
            ? ['node-silent', 'power-lost']
            : way === 'volts'
              ? ['power-lost', 'no-start', 'no-water']
              : ['no-start', 'no-water', 'power-lost'],
        causes:
          way === 'pump-circuit'
            ? ['power-lost', 'breaker-open', 'node-offline']
            : ['breaker-open', 'power-lost', 'overload-tripping'],
        beganMs,
        // A node that sends each half minute and has never been away is missed after a quarter of
        // an hour.
        knowableMs: way === 'pump-circuit' ? beganMs + minutes(15) : knowableMs,
        byMs: (way === 'pump-circuit' ? beganMs + minutes(15) : knowableMs) + NOW_DEADLINE_MS,
      },
      allowed: ['no-water', 'no-start', 'power-lost'],
    });
  });
}

/** The whole site is dark. A node with a last gasp says so; one without is silent. */
function sitePower(): CorpusCase[] {
  const beganMs = at(15, 18);
  const untilMs = at(15, 23);
  return [true, false].map((lastGasp, nth) => {
    const knowableMs = beganMs + (lastGasp ? 0 : minutes(15));
    return faultyCase(`site-power-lost-${nth + 1}-${lastGasp ? 'last-gasp' : 'silent'}`, {
      about: `the site is without power for five hours; the node ${lastGasp ? 'says so before it goes' : 'goes without a word'}`,
      setup: setup({
        name: `quince-${nth}`,
        seed: 510 + nth,
        node: { ...EVERY_5_S, powerCuts: [{ fromMs: beganMs, untilMs, lastGasp }] },
      }),
      days: 17,
      schedule: between(beganMs, untilMs, { circuitDead: true }),
      fault: {
        what: 'the whole site is without power',
        family: `site-power-lost-${lastGasp ? 'last-gasp' : 'silent'}`,
        size: 1,
        alarms: lastGasp ? ['power-lost'] : ['node-silent'],
        causes: lastGasp ? ['power-lost'] : ['node-offline', 'power-lost', 'breaker-open'],
        beganMs,
        knowableMs,
        // Silence of a node on another circuit is for the day, not for the minute.
        byMs: knowableMs + (lastGasp ? NOW_DEADLINE_MS : hours(2)),
      },
      allowed: ['node-silent', 'no-water'],
    });
  });
}

const FARM = {
  size: 'threeHpThreePhase',
  use: 'stock',
  fixtures: cattle(60),
  tankGal: 119,
} as const;

/**
 * A fuse is gone. A motor that rests hums at its next start and trips, again and again; one that
 * runs goes on with two lines and far more current in them until it trips. Either way one line
 * reads nothing while others carry current: a few readings prove it. A hydrant takes 1.3 L/s from
 * 10:01 on, or has done so since half past nine.
 */
function lostLegs(): CorpusCase[] {
  const beganMs = at(16, 10);
  const ways = [
    { name: 'at-rest', node: EVERY_1_S, draw: once(at(16, 10, 1), 60, 1.3), knownAfterMin: 5 },
    { name: 'at-rest-five-seconds', node: EVERY_5_S, draw: once(at(16, 10, 1), 60, 1.3), knownAfterMin: 7 },
    { name: 'running', node: EVERY_5_S, draw: once(at(16, 9, 30), 90, 1.7), knownAfterMin: 2 },
  ];
  return ways.map(({ name, node, draw, knownAfterMin }, nth) => {
    const knowableMs = beganMs + minutes(knownAfterMin);
    return faultyCase(`leg-lost-${nth + 1}-${name}`, {
      about: 'one of three lines is dead',
      setup: setup({ ...FARM, name: `rowan-${nth}`, seed: 520 + nth, node, draws: [draw] }),
      days: 18,
      schedule: since(beganMs, { deadLeg: nth === 1 ? 3 : 1, lockedForS: 6 }),
      fault: {
        what: `line ${nth === 1 ? 3 : 1} of three is dead`,
        family: `leg-lost-${name}`,
        size: 1,
        alarms: ['leg-lost', 'failed-start', 'no-water'],
        causes: ['lost-leg'],
        beganMs,
        knowableMs,
        byMs: knowableMs + NOW_DEADLINE_MS,
      },
      allowed: ['no-water'],
    });
  });
}

/**
 * Lines that differ. A volt in a hundred makes six to ten per cent of current (calculators that
 * quote NEMA MG 1); 5 % of current is where pump makers' handbooks want it looked at (common
 * practice, no source). The largest deviation from the mean is meant.
 */
function unevenLegs(): CorpusCase[] {
  const sizes = [
    { legs: [1.07, 0.97, 0.96] as const, percent: 7 },
    { legs: [1.13, 0.96, 0.91] as const, percent: 13 },
    { legs: [0.75, 1.1, 1.15] as const, percent: 25 },
  ];
  return sizes.map(({ legs, percent }, size) => {
    const beganMs = at(14, 12);
    return faultyCase(`leg-imbalance-${size + 1}`, {
      about: `currents of the lines differ by ${percent} % from their mean`,
      setup: setup({ ...FARM, name: `sedge-${size}`, seed: 530 + size }),
      days: 23,
      schedule: since(beganMs, { unevenLegs: legs }),
      fault: {
        what: `a bad connection: line currents ${percent} % off their mean`,
        family: 'leg-imbalance',
        size: size + 1,
        alarms: ['leg-imbalance'],
        causes: ['supply-voltage', 'lost-leg', 'failing-motor'],
        beganMs,
        knowableMs: beganMs + at(0.5) - at(0),
        byMs: beganMs + at([5, 2, 1][size]!) - at(0),
      },
      // One line draws more and another less than it did: true, and no news beside.
      allowed: ['amps-high', 'amps-low'],
    });
  });
}

/**
 * Outside plus or minus 10 % of 230 V (Water Well Journal, "Electrical Fundamentals"), measured,
 * while the pump runs.
 */
function supplyVolts(): CorpusCase[] {
  const sizes = [
    { share: 0.885, family: 'supply-low', size: 1 },
    { share: 0.86, family: 'supply-low', size: 2 },
    { share: 0.82, family: 'supply-low', size: 3 },
    { share: 1.115, family: 'supply-high', size: 1 },
    { share: 1.14, family: 'supply-high', size: 2 },
  ];
  return sizes.map(({ share, family, size }, nth) => {
    const beganMs = at(14, 10);
    return faultyCase(`${family}-${size}`, {
      about: `the supply stands at ${Math.round(230 * share)} V`,
      setup: setup({
        name: `thorn-${nth}`,
        seed: 540 + nth,
        node: { ...EVERY_5_S, extraChannels: ['voltage'] },
      }),
      days: 19,
      schedule: since(beganMs, { voltRatio: share }),
      fault: {
        what: `the supply stands at ${Math.round(100 * share)} % of the motor's volts`,
        family,
        size,
        alarms: ['supply-voltage'],
        causes: ['supply-voltage', 'generator'],
        beganMs,
        knowableMs: beganMs + hours(3),
        byMs: beganMs + at(size === 1 ? 2 : 1) - at(0),
      },
    });
  });
}

/**
 * Nobody measures volts: the current says that something is wrong with motor or supply, and not
 * which.
 */
function unmeasuredLowVolts(): CorpusCase {
  const beganMs = at(15, 9);
  return faultyCase('supply-low-unmeasured-1', {
    about: 'the supply falls by a sixth and nobody measures it',
    setup: setup({ name: 'upper-thwaite', seed: 550 }),
    days: 25,
    schedule: since(beganMs, { voltRatio: 0.83 }),
    fault: {
      what: "the supply stands at 83 % of the motor's volts; not measured",
      family: 'supply-low-unmeasured',
      size: 1,
      alarms: ['amps-high', 'supply-voltage', 'slow-fill'],
      causes: ['supply-voltage', 'failing-motor'],
      beganMs,
      knowableMs: at(16, 9),
      byMs: at(20, 9),
    },
  });
}
