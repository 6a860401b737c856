/**
 * The pump lifts less: worn impellers, a hole in the drop pipe, a valve half shut, backwards after
 * a visit. Each fill measures the flow at each pressure, so a tenth less is known after some days,
 * a third at once: it may no longer reach cut-out at all, and then the run without end is news of
 * the hour.
 */
import type { CorpusCase } from '../case.ts';
import { cattle, once, people } from './habits.ts';
import { faultyCase, growing, since, NOW_DEADLINE_MS, type Acts } from './case-builders.ts';
import { EVERY_1_S, setup, type WellOptions } from './setup.ts';
import { at, hours, minutes } from './times.ts';

export function pumpFaults(): CorpusCase[] {
  return [
    ...suddenWear(),
    ...slowWear(),
    ...dropPipeHoles(),
    ...halfShut(),
    ...shutValve(),
    wrongRotation(),
    cutOutOutOfReach(),
  ];
}

const WORN_ALARMS = ['slow-fill', 'amps-low', 'cut-out-not-reached', 'long-run'] as const;

/**
 * Sand went through in one night. A tenth of head and flow at each speed is a fifth of the flow
 * against lift and pressure.
 */
function suddenWear(): CorpusCase[] {
  const sizes = [
    { worn: 0.1, knownAfterDays: 1.5, byDays: 6 },
    { worn: 0.2, knownAfterDays: 1, byDays: 3 },
    { worn: 0.33, knownAfterDays: 0.5, byDays: 2 },
  ];
  const wells: Partial<WellOptions>[] = [
    {},
    { use: 'stock', fixtures: cattle(25), size: 'oneAndHalfHp', tankGal: 86, cardKnowledge: 'no-tank' },
  ];
  return sizes.flatMap(({ worn, knownAfterDays, byDays }, size) =>
    wells.map((well, which) => {
      const beganMs = at(15, 5);
      const place = ['house', 'stock'][which]!;
      return faultyCase(`pump-worn-${size + 1}-${place}`, {
        about: 'sand scours the impellers in a night',
        setup: setup({ ...well, name: `garth-${size}${which}`, seed: 300 + 10 * size + which }),
        days: 27,
        schedule: since(beganMs, { worn }),
        fault: {
          what: `the pump has lost ${Math.round(100 * worn)} % of its head and flow`,
          family: `pump-worn-${place}`,
          size: size + 1,
          alarms: WORN_ALARMS,
          // A water level that has sunk slows a pump in the same way; only a level sensor parts
          // them.
          causes: ['worn-pump', 'sand'],
          beganMs,
          knowableMs: beganMs + at(knownAfterDays) - at(0),
          byMs: beganMs + at(byDays) - at(0),
        },
      });
    }),
  );
}

/** Known at 7 % (an eighth of the flow is gone), to be told some days after 13 % (a quarter). */
function slowWear(): CorpusCase[] {
  const sizes = [
    { worn: 0.15, overDays: 60 },
    { worn: 0.25, overDays: 45 },
    { worn: 0.35, overDays: 40 },
  ];
  return sizes.map(({ worn, overDays }, size) => {
    const beganMs = at(14);
    const untilMs = beganMs + at(overDays) - at(0);
    const whenWorn = (share: number): number => beganMs + (untilMs - beganMs) * Math.min(1, share / worn);
    return faultyCase(`pump-wears-${size + 1}`, {
      about: `the pump wears by ${Math.round(100 * worn)} % within ${overDays} days`,
      setup: setup({ name: `heath-${size}`, seed: 340 + size, fixtures: people(5) }),
      days: 14 + overDays + 10,
      schedule: growing(beganMs, untilMs, (share) => ({ worn: worn * share })),
      fault: {
        what: `impellers worn by ${Math.round(100 * worn)} % over ${overDays} days`,
        family: 'pump-wears',
        size: size + 1,
        alarms: WORN_ALARMS,
        causes: ['worn-pump', 'sand'],
        beganMs,
        knowableMs: whenWorn(0.07),
        byMs: whenWorn(0.13) + at(5) - at(0),
      },
    });
  });
}

/**
 * A hole in the drop pipe: the pump moves more water than comes up, and draws no less current. It
 * falls back at rest as well.
 */
function dropPipeHoles(): CorpusCase[] {
  return [0.15, 0.3].map((dropPipeLost, size) => {
    const beganMs = at(14, 13);
    return faultyCase(`drop-pipe-hole-${size + 1}`, {
      about: 'a joint of the drop pipe is eaten through',
      setup: setup({ name: `ivy-${size}`, seed: 350 + size, node: EVERY_1_S }),
      days: 25,
      schedule: since(beganMs, { dropPipeLost, backLeakLPerS: 0.02 * (size + 1) }),
      fault: {
        what: `${Math.round(100 * dropPipeLost)} % of what is pumped runs back through a hole in the drop pipe`,
        family: 'drop-pipe-hole',
        size: size + 1,
        alarms: ['leak', 'slow-fill', 'cycle-count'],
        causes: ['drop-pipe-leak', 'check-valve', 'pitless-leak'],
        beganMs,
        knowableMs: beganMs + at(1) - at(0),
        byMs: beganMs + at(3 - size) - at(0) + hours(12),
      },
    });
  });
}

/**
 * A valve was left partly shut: less flow, less current. Worn impellers look much the same from
 * here.
 */
function halfShut(): CorpusCase[] {
  return [0.9, 0.95].map((shut, size) => {
    const beganMs = at(14, 15);
    return faultyCase(`valve-half-shut-${size + 1}`, {
      about: 'a valve before the tank is left partly shut',
      setup: setup({ name: `juniper-${size}`, seed: 360 + size }),
      days: 24,
      schedule: since(beganMs, { shut }),
      fault: {
        what: `a valve shuts ${Math.round(100 * shut)} % of the way to the tank`,
        family: 'valve-half-shut',
        size: size + 1,
        alarms: ['slow-fill', 'amps-low', 'cut-out-not-reached', 'long-run'],
        causes: ['closed-valve', 'worn-pump', 'low-well'],
        beganMs,
        knowableMs: beganMs + at(1.5) - at(0),
        byMs: beganMs + at(4) - at(0),
      },
    });
  });
}

/**
 * Somebody shuts the valve between pump and tank and waters the garden: the pump starts at cut-in
 * and lifts nothing. A run that moves no pressure for two minutes, at the current of a closed
 * valve, is enough to say so.
 */
function shutValve(): CorpusCase[] {
  const beganMs = at(16, 8);
  // 0.35 L/s draw 60 L of tank within three minutes, whatever stands in it; the pump stands still
  // for two more minutes of proof.
  const knowableMs = beganMs + minutes(7);
  const wells: { name: string; options: Partial<WellOptions> }[] = [
    { name: 'pressure', options: {} },
    { name: 'current-alone', options: { node: { ...EVERY_1_S, withoutPressure: true } } },
  ];
  return wells.map(({ name, options }, nth) =>
    faultyCase(`valve-shut-${nth + 1}-${name}`, {
      about: 'the valve between pump and tank is shut by mistake',
      setup: setup({
        ...options,
        name: `kestrel-${nth}`,
        seed: 370 + nth,
        draws: [once(at(16, 8, 1), 40, 0.35)],
      }),
      days: 18,
      schedule: since(beganMs, { shut: 1 }),
      fault: {
        what: 'the valve between pump and tank is shut',
        family: `valve-shut-${name}`,
        size: 1,
        alarms: ['dry-run', 'no-water', 'long-run', 'cut-out-not-reached'],
        // Shut-off amps are 70 % of the usual, a pump that holds air draws half; without pressure
        // the contract says that they look alike.
        causes: ['closed-valve', 'frozen', ...(name === 'pressure' ? [] : (['low-well'] as const))],
        beganMs,
        knowableMs,
        byMs: knowableMs + NOW_DEADLINE_MS,
      },
    }),
  );
}

/**
 * An electrician swaps two lines at a visit: about half of head and flow are left, so cut-out is
 * out of reach. The visit starts a new baseline, but a pump that does not fill the tank in an hour
 * needs none.
 */
function wrongRotation(): CorpusCase {
  const acts: Acts = [
    { atMs: at(16, 9), act: { kind: 'visit-opened', well: 'long-acre' } },
    { atMs: at(16, 11), act: { kind: 'visit-closed', well: 'long-acre', newBaseline: true } },
  ];
  const knowableMs = at(16, 14);
  return faultyCase('wrong-rotation-1', {
    about: 'two lines are swapped at a visit and the pump turns backwards',
    setup: setup({
      name: 'long-acre',
      seed: 380,
      size: 'threeHpThreePhase',
      use: 'stock',
      fixtures: cattle(60),
      tankGal: 119,
    }),
    days: 20,
    schedule: since(at(16, 10), { backwards: true }),
    acts,
    fault: {
      what: 'the pump turns backwards',
      family: 'wrong-rotation',
      size: 1,
      alarms: ['long-run', 'cut-out-not-reached', 'slow-fill', 'no-water', 'dry-run'],
      causes: ['wrong-rotation', 'worn-pump', 'low-well'],
      beganMs: at(16, 10),
      knowableMs,
      byMs: knowableMs + hours(12),
    },
  });
}

/**
 * The pump has grown weak enough to level off some psi under cut-out: it runs until somebody stops
 * it.
 */
function cutOutOutOfReach(): CorpusCase {
  const beganMs = at(15, 2);
  const knowableMs = at(15, 10);
  return faultyCase('cut-out-out-of-reach-1', {
    about: 'the pump levels off under cut-out and runs on',
    setup: setup({ name: 'marl-pit', seed: 390 }),
    days: 19,
    schedule: since(beganMs, { worn: 0.345 }),
    fault: {
      what: 'the pump levels off under cut-out',
      family: 'cut-out-out-of-reach',
      size: 1,
      alarms: ['cut-out-not-reached', 'long-run', 'slow-fill'],
      causes: ['worn-pump', 'sand', 'low-well'],
      beganMs,
      knowableMs,
      byMs: knowableMs + hours(6),
    },
  });
}
