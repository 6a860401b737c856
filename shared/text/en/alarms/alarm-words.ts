/** The words of every alarm, in one table, as they read where no card is at hand. */
import { fillCardNames } from '../card-names.ts';
import { ALARM_KINDS, type AlarmKind } from './kinds.ts';
import { TEXT_OF } from './text-index.ts';
import type { AlarmWords } from './text-shapes.ts';

/** As they are written, with placeholders for what a card says (../card-names.ts). */
export const RAW_ALARM_WORDS: Record<AlarmKind, AlarmWords> = TEXT_OF;

export const ALARM_WORDS = Object.fromEntries(
  ALARM_KINDS.map((kind) => {
    const words = RAW_ALARM_WORDS[kind];
    return [kind, { ...words, firstStep: fillCardNames(words.firstStep) }];
  }),
) as Record<AlarmKind, AlarmWords>;
