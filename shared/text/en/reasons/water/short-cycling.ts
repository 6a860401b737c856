/**
 * Why `short-cycling` is active, in words. Several starts within one run are
 * ../pump/bounced-starts.ts.
 */
import type { ReasonTexts } from '../reason-text.ts';

type RestFigures = { starts: number; inS: number; restS: number };

export const shortCyclingReasons = {
  /** `fillS` is a normal fill without any draw. */
  'starts-too-close': (
    { starts, inS, ranS, fillS }: { starts: number; inS: number; ranS: number; fillS?: number },
    { count, duration },
  ) => {
    const normal = fillS === undefined ? '' : ` A normal fill takes ${duration(fillS)}.`;
    return `The pump started ${count(starts, 'time', 'times')} in ${duration(inS)}, with runs of ${duration(ranS)}.${normal}`;
  },
  'rests-too-short': ({ starts, inS, restS }: RestFigures, { count, duration }) =>
    `The pump started ${count(starts, 'time', 'times')} in ${duration(inS)}. Each time it started again within ${duration(restS)}.`,
  'rests-too-regular': ({ starts, inS, restS }: RestFigures, { count, duration }) =>
    `The pump started ${count(starts, 'time', 'times')} in ${duration(inS)}, and each rest lasted about ${duration(restS)}. Nobody draws water that regularly.`,
} satisfies ReasonTexts;
