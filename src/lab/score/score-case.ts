/** One case played and scored: plain data that a worker hands over. */
import { readCard } from '../../core/domain/read-card.ts';
import type { CorpusCase } from './case.ts';
import { healthyYears, judge, type CaseVerdict } from './judge.ts';
import { measure, type Measures } from './measures.ts';
import { playCase } from './play.ts';

export interface CaseScore extends CaseVerdict {
  name: string;
  is: CorpusCase['is'];
  fromMs: number;
  years: number;
  healthyYears: number;
  measures: Measures;
  readings: number;
  remarks: string[];
  faults: string[];
}

const DAYS_A_YEAR = 365.25;

/** Throws an Error where the case itself is wrong. */
export function scoreCase(corpusCase: CorpusCase): CaseScore {
  const { name, is, fromMs, days, card } = corpusCase;
  if (is !== 'healthy' && !corpusCase.fault)
    throw new Error(`Cannot score ${name}: nothing says what is wrong`);
  const played = playCase(corpusCase);
  const read = readCard(card);
  if ('problem' in read) throw new Error(`Cannot score ${name}: ${read.problem}`);
  const { readings, remarks, faults } = played;
  return {
    name,
    is,
    fromMs,
    years: days / DAYS_A_YEAR,
    healthyYears: healthyYears(corpusCase),
    ...judge(corpusCase, played),
    measures: measure(corpusCase, read.card, played),
    readings,
    remarks,
    faults,
  };
}
