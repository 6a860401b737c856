import { describe, expect, it } from 'vitest';
import type { Condition, WellPlan } from '../../../src/lab/plant/params.ts';
import { atmosphereKpa, newPlant, playPlant, truthOf } from '../../../src/lab/plant/plant.ts';
import { waterL } from '../../../src/lab/plant/tank.ts';
import { DAY, from, HOUR, house, median, MIDNIGHT, play, psi, PUMP, type Played } from './wells.ts';

const SECOND_DAY = MIDNIGHT + DAY;
const day = (played: Played, at: number): Played['cycles'] =>
  played.cycles.filter((c) => Math.floor((c.startedMs - MIDNIGHT) / DAY) === at);
const kpaFrom = (played: Played, ms: number): number[] =>
  played.samples.filter((s) => s.tMs >= ms && s.kpa !== undefined).map((s) => s.kpa!);

describe('a sound well', () => {
  const played = play(house(), 72);

  it('runs between its switch points', () => {
    const { cycles } = played;
    expect(cycles.length).toBeGreaterThan(15);
    expect(cycles.every((c) => Math.abs(c.cutInKpa! - psi(40)) < 5)).toBe(true);
    expect(cycles.every((c) => Math.abs(c.cutOutKpa! - psi(60)) < 5)).toBe(true);
    expect(cycles.every((c) => c.amps! > 7 && c.amps! < 7.6)).toBe(true);
  });

  it('starts and stops between readings as well as on them', () => {
    expect(new Set(played.cycles.map((c) => c.startedMs % 1000)).size).toBeGreaterThan(4);
  });

  // 83 to 88 gallons a person and day (USGS 2010 and 2015, quoted): 314 to 333 L; a household of
  // one to three.
  it('uses what a household uses', () => {
    expect(played.days).toHaveLength(3);
    for (const d of played.days) {
      expect(d.usedL).toBeGreaterThan(200);
      expect(d.usedL).toBeLessThan(1000);
      expect(d.leakL).toBe(0);
    }
  });

  it('loses no water', () => {
    const lifted = played.cycles.reduce((sum, c) => sum + c.deliveredL, 0);
    const used = played.days.reduce((sum, d) => sum + d.usedL, 0);
    const began = newPlant(house(), MIDNIGHT);
    const held = waterL(played.plant.tank!) - waterL(began.tank!);
    expect(Math.abs(lifted - used - held)).toBeLessThan(1);
  });

  it('shows each reading in its time', () => {
    expect(played.samples).toHaveLength(72 * 3600);
    expect(played.samples[5]!.tMs).toBe(MIDNIGHT + 5000);
  });

  it('draws starting current first, and a little more when cold', () => {
    const start = played.cycles[0]!.startedMs;
    const amps = (s: number): number =>
      played.samples.find((x) => x.tMs === Math.ceil(start / 1000) * 1000 + s * 1000)!.amps[0]![0]!;
    const fine: number[] = [];
    const plant = newPlant(house(), MIDNIGHT);
    playPlant(plant, Math.floor(start / 1000) * 1000, 1, () => undefined);
    playPlant(plant, start + 3000, 0.1, (s) => fine.push(s.amps[0]![0]!));
    expect(Math.max(...fine)).toBeGreaterThan(4 * 8.3);
    expect(amps(5)).toBeGreaterThan(amps(90) * 0.99);
  });

  it('is the same for the same seed, and another for another', () => {
    const again = play(house(), 24);
    expect(again.cycles).toEqual(day(played, 0).slice(0, again.cycles.length));
    expect(play(house({ seed: 8 }), 24).days[0]!.usedL).not.toBe(played.days[0]!.usedL);
  });

  it('is the same well sampled each 10 s', () => {
    const coarse = play(house(), 24, 10);
    expect(coarse.samples).toHaveLength(8640);
    expect(coarse.days[0]!.usedL).toBeCloseTo(played.days[0]!.usedL, 3);
    expect(Math.abs(coarse.cycles.length - day(played, 0).length)).toBeLessThan(2);
  });

  it('starts on a whole minute', () => {
    expect(() => newPlant(house(), MIDNIGHT + 1)).toThrow(/whole minute/);
  });

  // US Standard Atmosphere 1976 (from memory, computed): 84.31 kPa at 5000 ft.
  it('stands under the air of its height', () => {
    expect(atmosphereKpa(1524)).toBeCloseTo(84.31, 2);
  });
});

interface Row {
  name: string;
  wrong: Partial<Condition>;
  plan?: Partial<WellPlan>;
  everyS?: number;
  /** On the second day against the first, or against what is said. */
  check: (p: Played) => void;
}

const least = (values: number[]): number => values.reduce((a, b) => Math.min(a, b));
const most = (values: number[]): number => values.reduce((a, b) => Math.max(a, b));
const later = (p: Played): Played['cycles'] => day(p, 1);
/** Litres a second over whole runs. */
const rate = (cycles: Played['cycles']): number =>
  median(cycles.map((c) => (1000 * c.deliveredL) / (c.stoppedMs - c.startedMs)));
const ran = (cycles: Played['cycles']): number => median(cycles.map((c) => c.stoppedMs - c.startedMs)) / 1000;

const ROWS: Row[] = [
  {
    name: 'a tank with half its air cycles twice as often',
    wrong: { airLost: 0.5 },
    check: (p) =>
      expect(median(later(p).map((c) => c.deliveredL))).toBeLessThan(
        0.7 * median(day(p, 0).map((c) => c.deliveredL)),
      ),
  },
  {
    name: 'a waterlogged tank cycles every few litres',
    wrong: { airLost: 0.95 },
    check: (p) => expect(ran(later(p))).toBeLessThan(15),
  },
  {
    name: 'an overcharged tank falls off its knee',
    wrong: { airLost: -0.3 },
    everyS: 1,
    check: (p) => {
      const kpa = kpaFrom(p, SECOND_DAY + HOUR * 6);
      expect(least(kpa)).toBeLessThan(psi(40) - 40);
      // Between the knee at about 370 kPa and cut-in there is next to nothing.
      expect(kpa.filter((v) => v < 340).length / kpa.length).toBeLessThan(0.01);
    },
  },
  {
    name: 'a leak is drawn day and night',
    wrong: { leakLPerS: 0.01 },
    check: (p) => {
      expect(p.days[1]!.leakL).toBeGreaterThan(700);
      expect(p.days[1]!.leakL).toBeLessThan(900);
    },
  },
  {
    name: 'a leaking check valve empties the tank, and nobody used it',
    wrong: { backLeakLPerS: 0.01 },
    check: (p) => {
      const lifted = later(p).reduce((sum, c) => sum + c.deliveredL, 0);
      expect(lifted).toBeGreaterThan(p.days[1]!.usedL + 500);
      expect(p.days[1]!.leakL).toBe(0);
    },
  },
  {
    name: 'a drained drop pipe is filled first',
    wrong: { dropPipeDrainsLPerS: 0.01 },
    check: (p) => expect(rate(later(p)) / rate(day(p, 0))).toBeLessThan(0.85),
  },
  {
    name: 'a hole in the drop pipe costs flow at the same current',
    wrong: { dropPipeLost: 0.3 },
    check: (p) => {
      expect(ran(later(p))).toBeGreaterThan(1.3 * ran(day(p, 0)));
      expect(median(later(p).map((c) => c.amps)) / median(day(p, 0).map((c) => c.amps))).toBeCloseTo(1, 1);
    },
  },
  {
    name: 'a shut valve lifts nothing at low current',
    wrong: { shut: 1 },
    check: (p) => {
      expect(later(p)).toEqual([]);
      expect(p.plant.units[0]!.amps).toBeCloseTo(5.2, 0);
      expect(most(kpaFrom(p, SECOND_DAY + 12 * HOUR))).toBeLessThan(50);
    },
  },
  {
    name: 'a blocked nipple overshoots',
    wrong: { nippleBlockedS: 60 },
    check: (p) => expect(median(later(p).map((c) => c.cutOutKpa))).toBeGreaterThan(psi(60) + 20),
  },
  {
    name: 'a frozen line shows what stood when it froze',
    wrong: { lineFrozen: true },
    check: (p) => {
      const kpa = kpaFrom(p, SECOND_DAY + HOUR);
      expect(most(kpa) - least(kpa)).toBeLessThan(12);
      expect(p.plant.teeKpa).toBeLessThan(kpa[0]! - 30);
    },
  },
  {
    name: 'a worn pump lifts and draws less',
    wrong: { worn: 0.15 },
    check: (p) => {
      expect(ran(later(p))).toBeGreaterThan(1.2 * ran(day(p, 0)));
      expect(median(later(p).map((c) => c.amps))).toBeLessThan(0.95 * median(day(p, 0).map((c) => c.amps)));
    },
  },
  {
    name: 'a rotor that does not turn trips and tries again',
    wrong: { failsToStartS: 120, lockedForS: 2 },
    check: (p) => {
      expect(later(p).length).toBeGreaterThan(500);
      expect(later(p).every((c) => c.amps === undefined && c.deliveredL === 0)).toBe(true);
      expect(ran(later(p))).toBeCloseTo(2, 0);
    },
  },
  {
    name: 'a dead circuit draws nothing and shows no volts',
    wrong: { circuitDead: true },
    check: (p) => {
      expect(later(p)).toEqual([]);
      expect(p.samples.at(-1)!.volts).toEqual([0]);
      expect(p.plant.teeKpa).toBe(0);
    },
  },
  {
    name: 'low volts raise the current',
    wrong: { voltRatio: 0.9 },
    check: (p) =>
      expect(median(later(p).map((c) => c.amps)) / median(day(p, 0).map((c) => c.amps))).toBeGreaterThan(
        1.03,
      ),
  },
  {
    name: 'a slow generator lifts less',
    wrong: { frequencyRatio: 0.95 },
    check: (p) => expect(rate(later(p)) / rate(day(p, 0))).toBeLessThan(0.92),
  },
  {
    name: 'welded contacts run into the relief valve',
    wrong: { stuckContacts: true },
    plan: { reliefKpa: psi(75) },
    check: (p) => {
      expect(p.plant.units[0]!.state).toBe('runs');
      expect(p.plant.teeKpa).toBeGreaterThan(psi(75));
      expect(p.plant.teeKpa).toBeLessThan(psi(85));
      expect(p.days[1]!.usedL).toBeGreaterThan(5000);
    },
  },
  {
    name: 'a switch out of its set works between other points',
    wrong: { cutInShiftKpa: 15, cutOutShiftKpa: 25 },
    check: (p) => {
      expect(median(later(p).map((c) => c.cutInKpa))).toBeCloseTo(psi(40) + 15, -1);
      expect(median(later(p).map((c) => c.cutOutKpa))).toBeCloseTo(psi(60) + 25, -1);
    },
  },
  {
    name: 'chatter is one run, not many',
    wrong: { chatter: 3 },
    check: (p) => {
      expect(later(p).length).toBeLessThan(15);
      expect(ran(later(p))).toBeGreaterThan(90);
    },
  },
  {
    name: 'a well that fell under its pump gives bursts of water between air',
    wrong: { levelFallM: 25 },
    check: (p) => {
      const amps = p.samples.filter((s) => s.tMs > SECOND_DAY + 12 * HOUR && s.amps[0]![0]! > 1);
      const air = amps.filter((s) => s.amps[0]![0]! < 0.55 * day(p, 0)[0]!.amps!).length / amps.length;
      expect(air).toBeGreaterThan(0.1);
      expect(air).toBeLessThan(0.9);
      expect(least(p.samples.map((s) => s.levelM!))).toBe(0);
    },
  },
  {
    name: 'a heater pushes water back',
    wrong: { heatExpansionLPerS: 0.002 },
    check: (p) => expect(later(p).length).toBeLessThan(day(p, 0).length + 2),
  },
  {
    name: 'a burst bladder loses its air',
    wrong: { bladderBurst: true },
    plan: { useRatio: () => 3 },
    check: (p) => expect(p.plant.tank!.airJPerK).toBeLessThan(0.9 * p.plant.tank!.chargeJPerK),
  },
];

describe('an ill well', () => {
  it.each(ROWS)('$name', ({ wrong, plan, everyS = 5, check }) => {
    check(play(house({ ...plan, schedule: from(SECOND_DAY, wrong) }), 48, everyS));
  });

  it('is the same as the sound one until it falls ill', () => {
    const sound = play(house(), 24, 5);
    const ill = play(house({ schedule: from(SECOND_DAY, { airLost: 0.4 }) }), 48, 5);
    expect(day(ill, 0)).toEqual(sound.cycles);
    // And people go on as they would have.
    expect(ill.days[1]!.usedL).toBeCloseTo(play(house(), 48, 5).days[1]!.usedL, -1);
  });

  it('loses its pressure at once when the bladder is out of water, and people give up', () => {
    const { samples, plant } = play(house({ schedule: from(SECOND_DAY, { circuitDead: true }) }), 48, 1);
    const fell = samples.findIndex((s) => s.tMs > SECOND_DAY && s.kpa! < 20);
    const before = samples[fell - 60]!.kpa!;
    expect(before).toBeGreaterThan(psi(36));
    expect(samples[fell + 20]!.kpa!).toBeLessThan(20);
    expect(plant.demand.open.length).toBeLessThan(4);
  });

  it('has its fault in the pump it has it in', () => {
    const twice = {
      pumps: { how: 'alternating' as const, pumps: [PUMP, PUMP] },
      schedule: from(MIDNIGHT, { onlyPump: 1, drag: 0.3 }),
    };
    const { cycles } = play(house(twice), 24, 5);
    const amps = (pump: number): number => median(cycles.filter((c) => c.pump === pump).map((c) => c.amps));
    expect(amps(1) / amps(0)).toBeGreaterThan(1.2);
  });
});

describe('the truth', () => {
  it('leaves out what is still open, and counts a part-day into its day', () => {
    const plant = newPlant(house(), MIDNIGHT + 6 * HOUR);
    playPlant(plant, MIDNIGHT + DAY - 1000, 5, () => undefined);
    expect(truthOf(plant).days).toEqual([]);
    playPlant(plant, MIDNIGHT + DAY, 5, () => undefined);
    expect(truthOf(plant).days.map((d) => d.startMs)).toEqual([MIDNIGHT]);
  });
});
