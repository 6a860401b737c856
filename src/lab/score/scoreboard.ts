/**
 * The scores of all cases put together: figures beside what is wanted of them, and a row for each
 * alarm.
 */
import type { AlarmKind } from '../../../shared/text/en/alarms/kinds.ts';
import { ALARM_KINDS } from '../../../shared/text/en/alarms/kinds.ts';
import type { FaultResult, RaisedAlarm } from './judge.ts';
import { addMeasures, newMeasures, type Measures } from './measures.ts';
import type { CaseScore } from './score-case.ts';

export interface AlarmScore {
  alarm: AlarmKind;
  /** Faults for which it is the best alarm, those found at all, and those found in time. */
  faults: number;
  found: number;
  inTime: number;
  /** Since knowable, of those found. */
  medianMs?: number;
  worstMs?: number;
  /** Of those found whose causes were asked for: how many, and where the right one came first. */
  causes: number;
  causesFirst: number;
  /** Raised in healthy time; raised beside the right ones. */
  falseAlarms: number;
  wrong: number;
}

export interface Scoreboard {
  cases: number;
  years: number;
  healthyYears: number;
  readings: number;
  measures: Measures;
  faultResults: FaultResult[];
  badInput: FaultResult[];
  /** Wrong findings about the well of cases with bad input, before the bad input came included. */
  badInputWrong: RaisedAlarm[];
  falseAlarms: RaisedAlarm[];
  rows: AlarmScore[];
}

export function buildScoreboard(scores: readonly CaseScore[]): Scoreboard {
  const measures = newMeasures();
  const badInput = scores.filter(({ is }) => is === 'bad-input');
  const others = scores.filter(({ is }) => is !== 'bad-input');
  for (const score of others) addMeasures(measures, score.measures);
  const found = others.flatMap(({ fault }) => fault ?? []);
  const falseAlarms = others.flatMap((score) => score.falseAlarms);
  return {
    cases: scores.length,
    years: sum(scores.map(({ years }) => years)),
    healthyYears: sum(scores.map((score) => score.healthyYears)),
    readings: sum(scores.map(({ readings }) => readings)),
    measures,
    faultResults: found,
    badInput: badInput.flatMap(({ fault }) => fault ?? []),
    badInputWrong: badInput.flatMap((score) => [...score.falseAlarms, ...(score.fault?.wrong ?? [])]),
    falseAlarms,
    rows: ALARM_KINDS.map((alarm) => alarmScoreOf(alarm, found, falseAlarms)).filter(
      ({ faults, falseAlarms: no, wrong }) => faults + no + wrong > 0,
    ),
  };
}

function alarmScoreOf(
  alarm: AlarmKind,
  all: readonly FaultResult[],
  falseAlarms: readonly RaisedAlarm[],
): AlarmScore {
  const mine = all.filter((one) => one.alarm === alarm);
  const times = mine.flatMap(({ afterMs }) => afterMs ?? []).sort((a, b) => a - b);
  const median = lowerMedian(times);
  const worst = times.at(-1);
  return {
    alarm,
    faults: mine.length,
    found: times.length,
    inTime: mine.filter(({ inTime }) => inTime).length,
    ...(median !== undefined && { medianMs: median }),
    ...(worst !== undefined && { worstMs: worst }),
    causes: mine.filter(({ cause }) => cause).length,
    causesFirst: mine.filter(({ cause }) => cause?.first).length,
    falseAlarms: falseAlarms.filter((raised) => raised.alarm === alarm).length,
    wrong: all.flatMap(({ wrong }) => wrong).filter((raised) => raised.alarm === alarm).length,
  };
}

/** The lower of two middles. */
export function lowerMedian(sorted: readonly number[]): number | undefined {
  return sorted[Math.floor((sorted.length - 1) / 2)];
}

function sum(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}

/** Of each family, the faults of its two heaviest sizes. */
export function heaviest(found: readonly FaultResult[]): FaultResult[] {
  const families = new Map<string, Set<number>>();
  for (const { family, size } of found) {
    const sizes = families.get(family) ?? new Set();
    families.set(family, sizes.add(size));
  }
  return found.filter(({ family, size }) => {
    const larger = [...families.get(family)!].filter((other) => other > size);
    return larger.length < 2;
  });
}
