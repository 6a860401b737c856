/**
 * The shape of the texts about a part of the well's system, and the list of parts. The texts are in
 * parts-*.ts.
 */
import type { Caution } from '../cautions.ts';

/**
 * In the order of the water's path, from the ground up; then power, protection and sensors.
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
  /** How it fails, and how a person or the readings notice it. */
  failure: string;
  /** What to ask whoever installs or services it. */
  questions: readonly string[];
  /**
   * Shown with it wherever electricity, pressure, frost or contaminated water can hurt.
   */
  cautions: readonly Caution[];
}
