/**
 * Sound farms: troughs, stores, big irrigation pumps, three phases, several pumps, drives and
 * valves, and a water table that goes with the seasons. Nothing is to be raised.
 */
import type { CorpusCase } from '../case.ts';
import { kpaFromPsi } from '../../../../shared/units/pressure.ts';
import { byHand, byTimer, cattle, people, seasonal, weekdays } from './habits.ts';
import { healthyCase } from './case-builders.ts';
import { PUMPS } from './pumps.ts';
import { EVERY_10_S, EVERY_5_S, setup, type Setup, type WellOptions } from './setup.ts';
import { constantPressureValve, floatStore, timerStore, variableSpeed } from './stores.ts';
import { dayOf, midnight } from './times.ts';

const DAYS = 200;

export function healthyFarms(variant: number): CorpusCase[] {
  return [
    ...troughs(variant),
    ...stores(variant),
    ...threePhases(variant),
    ...severalPumps(variant),
    ...drives(variant),
    seasonalTable(variant),
  ];
}

function troughs(variant: number): CorpusCase[] {
  return [20, 45].map((heads, nth) => {
    const seed = 3000 + 100 * variant + nth;
    return healthyCase(`healthy-stock-${nth + 1}-${variant}`, {
      about: `troughs for ${heads} head, more in summer than in winter`,
      setup: setup({
        name: `kelso-${nth}-${variant}`,
        seed,
        use: 'stock',
        size: nth === 0 ? 'oneHp' : 'oneAndHalfHp',
        tankGal: 86,
        fixtures: cattle(heads),
        // Cattle know no weekend.
        useRatio: seasonal(() => 1, 0.3),
        cardKnowledge: nth === 0 ? 'all' : 'no-tank',
        node: nth === 0 ? EVERY_5_S : EVERY_10_S,
      }),
      fromMs: midnight(3, 1),
      days: DAYS,
    });
  });
}

function stores(variant: number): CorpusCase[] {
  const wish = (name: string, nth: number): WellOptions => ({
    name: `${name}-${variant}`,
    seed: 3010 + 100 * variant + nth,
    fixtures: cattle(35),
    useRatio: seasonal(() => 1, 0.25),
    node: { ...EVERY_5_S, withoutPressure: true, ...(nth % 2 === 0 && { extraChannels: ['store'] }) },
  });
  return [
    healthyCase(`healthy-float-store-${variant}`, {
      about: 'a cistern filled by a float, with a gauge in it',
      setup: floatStore(wish('langdon', 0)),
      fromMs: midnight(2, 10),
      days: DAYS,
    }),
    healthyCase(`healthy-timer-store-${variant}`, {
      about: 'a cistern filled by a timer, twice a day',
      setup: timerStore(wish('melrose', 1), [5, 17], 45),
      fromMs: midnight(2, 10),
      days: DAYS,
    }),
  ];
}

function threePhases(variant: number): CorpusCase[] {
  return [
    healthyCase(`healthy-three-phase-${variant}`, {
      about: 'a farm with house and troughs on three phases',
      setup: setup({
        name: `norland-${variant}`,
        seed: 3020 + 100 * variant,
        size: 'threeHpThreePhase',
        use: ['house', 'stock'],
        tankGal: 119,
        fixtures: [...people(4), ...cattle(60)],
        useRatio: seasonal(() => 1, 0.2),
        node: { ...EVERY_5_S, extraChannels: variant % 2 === 0 ? ['voltage'] : [] },
      }),
      fromMs: midnight(2, 1),
      days: DAYS,
    }),
    healthyCase(`healthy-irrigation-pump-${variant}`, {
      about: 'a 5 hp pump waters fields for hours, on some days',
      setup: setup({
        name: `otter-ford-${variant}`,
        seed: 3030 + 100 * variant,
        size: 'fiveHpThreePhase',
        use: 'irrigation',
        cutInPsi: 30,
        cutOutPsi: 50,
        tankGal: 119,
        fixtures: people(1),
        draws: byHand({
          seed: 3030 + variant,
          chance: 0.6,
          fromMs: midnight(4, 1),
          days: 150,
          everyDays: 1,
          hour: 4,
          forMin: 300,
          lPerS: 3.4,
        }),
        node: EVERY_10_S,
      }),
      fromMs: midnight(3, 20),
      days: 150,
    }),
  ];
}

function severalPumps(variant: number): CorpusCase[] {
  const plate = { control: 'pressure-switch', pump: PUMPS.oneHp.plate };
  const two = (name: string, nth: number, how: 'alternating' | 'lag'): Setup => {
    const base = setup({
      name: `${name}-${variant}`,
      seed: 3040 + 100 * variant + nth,
      fixtures: people(12),
      tankGal: 119,
      draws: byTimer({ fromMs: midnight(3, 8), days: DAYS, everyDays: 2, hour: 6, forMin: 40, lPerS: 0.75 }),
      use: ['house', 'irrigation'],
    });
    const { control: _control, pump: _pump, ...card } = base.card;
    const pump = base.plan.pumps.pumps[0]!;
    return {
      ...base,
      plan: {
        ...base.plan,
        pumps: {
          pumps: [pump, pump],
          how,
          ...(how === 'lag' && { lagBelowKpa: kpaFromPsi(36) }),
        },
      },
      card: { ...card, pumps: { p1: plate, p2: plate } },
    };
  };
  return [
    healthyCase(`healthy-alternating-${variant}`, {
      about: 'two pumps of a hamlet take turns',
      setup: two('penrith', 0, 'alternating'),
      fromMs: midnight(3, 1),
      days: 120,
    }),
    healthyCase(`healthy-lag-pump-${variant}`, {
      about: 'a second pump helps where the first is not enough',
      setup: two('rydal', 1, 'lag'),
      fromMs: midnight(3, 1),
      days: 120,
    }),
  ];
}

function drives(variant: number): CorpusCase[] {
  const seed = 3050 + 100 * variant;
  return [
    healthyCase(`healthy-variable-speed-${variant}`, {
      about: 'a drive holds 55 psi',
      setup: variableSpeed({ name: `stanway-${variant}`, seed, fixtures: people(3) }),
      fromMs: midnight(3, 1),
      days: 120,
    }),
    healthyCase(`healthy-variable-speed-garden-${variant}`, {
      about: 'a drive holds 55 psi for a house and its sprinklers; the tank has two gallons',
      setup: variableSpeed({
        name: `tarn-end-${variant}`,
        seed: seed + 1,
        tankGal: 2,
        use: ['house', 'irrigation'],
        draws: byTimer({ fromMs: midnight(3, 1), days: 120, everyDays: 2, hour: 5, forMin: 60, lPerS: 0.3 }),
      }),
      fromMs: midnight(3, 1),
      days: 120,
    }),
    healthyCase(`healthy-constant-pressure-valve-${variant}`, {
      about: 'a valve throttles the pump to 50 psi',
      setup: constantPressureValve({ name: `upcott-${variant}`, seed: seed + 2, fixtures: people(3) }),
      fromMs: midnight(3, 1),
      days: 120,
    }),
  ];
}

/**
 * The table stands 4 m lower in late summer than in spring: a few per cent of flow, and it comes
 * back.
 */
function seasonalTable(variant: number): CorpusCase {
  const seed = 3060 + 100 * variant;
  const swing = 2;
  return healthyCase(`healthy-seasonal-table-${variant}`, {
    about: 'the water table goes with the season',
    setup: setup({
      name: `verwood-${variant}`,
      seed,
      useRatio: seasonal(weekdays(seed, -7), 0.2),
      node: { ...EVERY_5_S, extraChannels: ['level'] },
    }),
    fromMs: midnight(2, 1),
    days: 300,
    schedule: (tMs) => ({
      levelFallM: swing * (1 - Math.cos((2 * Math.PI * (dayOf(tMs, 0) - 100)) / 365.25)),
    }),
  });
}
