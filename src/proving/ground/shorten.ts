/** A quicker look: healthy wells for some weeks only. What is wrong is played to its end, since it has to be found by a time. */
import type { CorpusCase } from './case.ts';

/** The same cases in the same places; `mostDays` undefined leaves all as they are. */
export function shortened(cases: readonly CorpusCase[], mostDays: number | undefined): CorpusCase[] {
  return cases.map((one) =>
    mostDays !== undefined && one.is === 'healthy' && one.days > mostDays ? { ...one, days: mostDays } : one,
  );
}
