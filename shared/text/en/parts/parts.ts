/** The words of every part, in one table: a part without words does not compile. */
import type { Part, PartWords } from './part-words.ts';
import { ELECTRIC_PARTS } from './parts-electric.ts';
import { WATER_PARTS } from './parts-water.ts';
import { WELL_PARTS } from './parts-well.ts';

export const PART_WORDS: Record<Part, PartWords> = {
  ...WELL_PARTS,
  ...WATER_PARTS,
  ...ELECTRIC_PARTS,
};
