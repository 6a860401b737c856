/**
 * Wording around water tests: what makes one due, the kinds of limits, and how a result stands
 * beside one.
 */
import type { LimitKind } from '../../water/limits.ts';
import type { Verdict } from '../../water/compare.ts';

/**
 * What somebody noticed that makes the water worth testing at once (EPA, "Protect Your Home's
 * Water").
 */
export const WATER_EVENTS = [
  'flood',
  'taste-or-smell',
  'colour-or-cloudy',
  'illness',
  'ground-disturbed',
  'repair',
  'disinfected',
] as const;
export type WaterEvent = (typeof WATER_EVENTS)[number];

export const WATER_EVENT_WORDS: Record<WaterEvent, { question: string; reason: string }> = {
  flood: { question: 'Flood water stood over or near the well', reason: 'flood' },
  'taste-or-smell': { question: 'The water tastes or smells different', reason: 'another taste or smell' },
  'colour-or-cloudy': { question: 'The water is colored or cloudy', reason: 'color or cloudiness' },
  illness: { question: 'Somebody in the house has stomach trouble', reason: 'illness in the house' },
  'ground-disturbed': {
    question: 'Building, digging, drilling or blasting close by',
    reason: 'work in the ground close by',
  },
  repair: { question: 'Part of the well or its plumbing was repaired or replaced', reason: 'a repair' },
  disinfected: { question: 'The well was disinfected', reason: 'disinfection' },
};

export const LIMIT_WORDS: Record<LimitKind, { name: string; means: string }> = {
  primary: { name: 'Primary limit', means: 'for health; public systems must keep it' },
  secondary: { name: 'Secondary limit', means: 'for taste, color, stains and pipes; not for health' },
  treatment: { name: 'Treatment technique', means: 'a find makes a public system act' },
  action: { name: 'Action level', means: 'over it a public system must act against corrosion' },
  disinfectant: { name: 'Highest disinfectant level', means: 'for public systems that add it' },
  advisory: { name: 'Health advisory', means: 'advice, no rule' },
};

export const VERDICT_WORDS: Record<Verdict, string> = {
  over: 'over it',
  at: 'at it',
  under: 'not over it',
  'below-range': 'below its range',
  'cannot-tell': 'can’t be told: the laboratory could not see so little',
  'none-found': 'not detected; the report does not say how little could have been seen',
};

export const YARDSTICK_NOTE =
  'These limits bind public water systems. For a private well they are yardsticks: no law holds it to them, and nobody but its owner looks after it.';
