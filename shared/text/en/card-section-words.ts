/** What the words of a card's section are made of. */
import type { Part } from './parts/part-words.ts';

export interface FieldWords {
  /** Dotted; a pump's as if there were one pump. */
  key: string;
  label: string;
  /** As it is written, in US and in metric units. */
  example?: string | readonly [us: string, metric: string];
  /** Each choice with its words; the first may be left unsaid. */
  choices?: readonly (readonly [value: string, words: string])[];
  /** A line under the field. */
  hint?: string;
}

export interface SectionWords {
  title: string;
  /** Its fields are there for each pump. */
  perPump?: true;
  intro?: string;
  /** Parts of which more is said (./parts/parts.ts). */
  parts?: readonly Part[];
  fields: readonly FieldWords[];
}

/** How a date may be written. */
export const DATE_EXAMPLE = '2019-05-14, or 2019';
