/** The words of every alarm, in one table. */
import type { AlarmKind } from './kinds.ts';
import { TEXT_OF } from './text-index.ts';
import type { AlarmWords } from './text-shapes.ts';

export const ALARM_WORDS: Record<AlarmKind, AlarmWords> = TEXT_OF;
