/**
 * The second plant's corpus in two halves of the same recipes: seeds of one range are for whoever
 * tunes the engine, seeds of another are held out and say whether the tuning was more than learning
 * by heart.
 */
import type { CorpusCase } from '../../score/case.ts';
import { CONTROL_FAULTS } from './faults-control.ts';
import { MOTOR_FAULTS } from './faults-motor.ts';
import { PUMP_FAULTS } from './faults-pump.ts';
import { SUPPLY_FAULTS } from './faults-supply.ts';
import { WATER_FAULTS } from './faults-water.ts';
import { soundWells } from './healthy.ts';
import { caseOf, type Recipe } from './recipe.ts';

export type Half = 'tuned' | 'held-out';

const RECIPES: readonly Recipe[] = [
  ...PUMP_FAULTS,
  ...MOTOR_FAULTS,
  ...SUPPLY_FAULTS,
  ...WATER_FAULTS,
  ...CONTROL_FAULTS,
];
const FIRST_SEED: Record<Half, number> = { tuned: 100_000, 'held-out': 700_000 };
/** Each round draws other wells for the same recipes. */
const ROUND_SEEDS = 100_000;
const FULL_ROUNDS = 5;

export function halfOf(half: Half, full: boolean): CorpusCase[] {
  return Array.from({ length: full ? FULL_ROUNDS : 1 }, (_, round) => {
    const seed = FIRST_SEED[half] + round * ROUND_SEEDS;
    return [...soundWells({ half, seed }), ...faultyWells(half, seed + ROUND_SEEDS / 2)];
  }).flat();
}

function faultyWells(half: Half, firstSeed: number): CorpusCase[] {
  return RECIPES.flatMap((recipe) =>
    recipe.sizes.map((_, sizeAt) =>
      caseOf(recipe, sizeAt, { seed: firstSeed + placeOf(`${recipe.family} ${sizeAt}`), half }),
    ),
  );
}

/**
 * Where in its round's seeds a fault has its own: by its name, so that a recipe that is added or
 * taken away redraws no other well.
 */
function placeOf(name: string): number {
  let hash = 0;
  for (const character of name) hash = (Math.imul(hash, 31) + character.charCodeAt(0)) >>> 0;
  return hash % (ROUND_SEEDS / 2);
}
