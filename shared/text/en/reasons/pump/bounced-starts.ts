/**
 * Why `short-cycling` is active, in words, if it is the motor that starts several times within one
 * run.
 */
import type { ReasonFormat } from '../format.ts';
import type { ReasonTexts } from '../reason-text.ts';

/** `startS` is how long starting current lasts in the median of these runs. */
type LongStartFigures = { runs: number; ofRuns: number; startS: number };

export const bouncedStartsReasons = {
  'starts-bounce': (figures: LongStartFigures, format) =>
    `${longStarts(figures, format)} The motor starts several times in each run: contacts may bounce.`,
  'starts-slow': (figures: LongStartFigures, format) =>
    `${longStarts(figures, format)} The motor comes up to speed slowly.`,
} satisfies ReasonTexts;

function longStarts({ runs, ofRuns, startS }: LongStartFigures, { number, duration }: ReasonFormat): string {
  return `Starting current lasted ${duration(startS)} in ${number(runs)} of the last ${number(ofRuns)} runs; it normally lasts under a second.`;
}
