/** Sound wells, the ordinary and the odd: whatever is raised at one of these is false. */
import type { CorpusCase } from '../../score/case.ts';
import { household, onDays, timed, type Habit } from '../habits.ts';
import { dice } from './draw.ts';
import { drawWell, type WellWish } from './draw-well.ts';
import { startMs } from './recipe.ts';

interface SoundWell {
  name: string;
  wish: WellWish;
  days?: number;
}

const SMALL_HP = [0.5, 0.75];
const DAYS = 40;

/** Guests for a weekend in every fifth week; away for a week in every eleventh. */
const guests: Habit = onDays(
  household({ people: 5, rhythm: 'family' }),
  (day, weekday) => Math.floor(day / 7) % 5 === 0 && (weekday === 6 || weekday === 0),
);
const awayAndBack: Habit = onDays(
  household({ people: 4, rhythm: 'family' }),
  (day) => Math.floor(day / 7) % 11 !== 0,
);

const SOUND: readonly SoundWell[] = [
  { name: 'house', wish: {} },
  { name: 'house-by-name-only', wish: { knowledge: ['name'] } },
  { name: 'house-plain-tank', wish: { plainTank: true, tankRatio: 3 } },
  { name: 'shift-worker', wish: { use: 'shift-worker' } },
  { name: 'retired', wish: { use: 'retired' } },
  { name: 'weekend-house', wish: { use: 'weekend-house' } },
  { name: 'guests-and-holidays', wish: { plan: { habits: [awayAndBack, guests] } } },
  { name: 'farm', wish: { use: 'farm', tankRatio: 2 } },
  { name: 'stock', wish: { use: 'stock', tankRatio: 2, hp: SMALL_HP } },
  { name: 'garden', wish: { use: 'garden', tankRatio: 1.5 } },
  { name: 'heat-pump', wish: { use: 'heat-pump', tankRatio: 3, hp: SMALL_HP } },
  { name: 'low-yield', wish: { lowYield: true } },
  { name: 'three-phase', wish: { phase: 3, hp: [2, 3, 5], use: 'farm', tankRatio: 2.5 } },
  { name: 'float', wish: { control: 'float', use: 'stock', hp: SMALL_HP } },
  { name: 'timer', wish: { control: 'timer', use: 'stock', hp: SMALL_HP } },
  { name: 'drive', wish: { control: 'variable-speed', hp: [0.75, 1] } },
  { name: 'valve', wish: { control: 'constant-pressure-valve', hp: [0.75, 1, 1.5], tankRatio: 0.4 } },
  { name: 'lead-and-lag', wish: { pumps: 'lead-lag', use: 'farm', tankRatio: 2 } },
  { name: 'alternating', wish: { pumps: 'alternate', use: 'farm', tankRatio: 2 } },
  { name: 'jet-pump', wish: { aboveGround: true, hp: SMALL_HP } },
  {
    name: 'rounding-clamp',
    wish: { plan: { clamp: { noiseA: 0.02, stepA: 0.1, maxA: 30, gain: 1.02, idleA: 0.1 } } },
  },
  {
    name: 'drifting-transducer',
    wish: { plan: { transducer: { noiseKpa: 1, stepKpa: 0.7, offsetKpa: 3, driftKpaAYear: 12 } } },
  },
  { name: 'restless-volts', wish: { plan: { supply: { ratio: 0.98, eveningDip: 0.04, wander: 0.012 } } } },
  { name: 'means-of-a-minute', wish: { node: { everyS: 10, meanS: 60, packS: 60 } } },
  { name: 'five-a-second', wish: { node: { everyS: 0.2, packS: 10, extraChannels: [] } }, days: 14 },
];

const ODD_TIMER = timed({ lPerS: 0.05, hour: 13, forMin: 30, everyDays: 9 });

export function soundWells({ half, seed }: { half: string; seed: number }): CorpusCase[] {
  return SOUND.map(({ name, wish, days = DAYS }, at) => {
    const own = seed + at;
    const drawn = drawWell(own, wish);
    // Something or other that happens every ninth day, in each house of its own.
    const habits = [...drawn.plan.habits, ODD_TIMER];
    const draw = dice(own + 1_000_000);
    return {
      name: `${half}-sound-${name}-${own}`,
      about: `${name}: sound (second plant)`,
      is: 'healthy',
      plan: { ...drawn.plan, habits },
      card: drawn.card,
      node: drawn.node,
      fromMs: startMs(draw, drawn.plan.utcOffsetH),
      days,
    };
  });
}
