/**
 * The shape of what is said of a part of the well's system, and the list of parts. The words
 * themselves: parts-*.ts.
 */
import type { Caution } from '../cautions.ts';

/**
 * In the order in which the water meets them, from the ground up; then what feeds, guards and
 * watches it.
 */
export const PARTS = [
  'well',
  'well-cap',
  'submersible-pump',
  'jet-pump',
  'motor',
  'drop-pipe',
  'check-valve',
  'pitless-adapter',
  'pipes',
  'constant-pressure-valve',
  'pressure-tank',
  'pressure-gauge',
  'relief-valve',
  'storage-tank',
  'trough',
  'treatment',
  'breaker',
  'control-box',
  'overload',
  'pump-protector',
  'drive',
  'pressure-switch',
  'current-clamp',
  'pressure-transducer',
  'node',
] as const;
export type Part = (typeof PARTS)[number];

export interface PartWords {
  /** A few words, no full stop. */
  name: string;
  purpose: string;
  /** What it does when it fails: what a person or the readings then notice. */
  failure: string;
  /** What to ask whoever puts it in or looks after it. */
  questions: readonly string[];
  /**
   * What must be said along with it: wherever electricity, pressure, frost or foul water can hurt.
   */
  cautions: readonly Caution[];
}
