/**
 * A quicker look: healthy wells for some weeks only. What is wrong is played to its end, since it
 * has to be found by a time.
 */
import type { CorpusCase } from './case.ts';

/** The same cases in the same places; `maxDays` undefined leaves all as they are. */
export function shortenCases(cases: readonly CorpusCase[], maxDays: number | undefined): CorpusCase[] {
  return cases.map((one) =>
    maxDays !== undefined && one.is === 'healthy' && one.days > maxDays ? { ...one, days: maxDays } : one,
  );
}
