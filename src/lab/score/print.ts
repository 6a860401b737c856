/**
 * The scoreboard as text: a table for a terminal, Markdown for a page, one object for a program,
 * and what lies behind it case by case.
 */
import { DAY_MS } from '../../../shared/units/duration.ts';
import type { AlarmScore, Scoreboard } from './scoreboard.ts';
import { formatDuration, type Figure } from './figures.ts';
import type { FaultResult, RaisedAlarm } from './judge.ts';
import type { Measures, HistogramName } from './measures.ts';
import type { CaseScore } from './score-case.ts';
import { quantile } from './histogram.ts';
import { markdown, table } from './table.ts';

const HEAD = ['', 'figure', 'target', ''];
const ALARM_HEAD = ['alarm', 'faults', 'found', 'in time', 'median', 'worst', 'false', 'wrong beside'];

export function boardText(board: Scoreboard, figures: readonly Figure[]): string {
  return [
    summaryLine(board),
    '',
    table([HEAD, ...figures.map(figureCells)]),
    '',
    table([ALARM_HEAD, ...board.rows.map(alarmCells)]),
    '',
  ].join('\n');
}

export function boardMarkdown(board: Scoreboard, figures: readonly Figure[]): string {
  return [
    summaryLine(board),
    '',
    ...markdown(HEAD, figures.map(figureCells)),
    '',
    ...markdown(ALARM_HEAD, board.rows.map(alarmCells)),
    '',
  ].join('\n');
}

/** As an object for a program. */
export function boardObject(board: Scoreboard, figures: readonly Figure[]): object {
  const { cases, years, healthyYears, readings, rows } = board;
  const named = Object.fromEntries(
    figures.map(({ name, value, target, met }) => [
      name,
      {
        ...(value !== undefined && { value }),
        ...(target !== '' && { target }),
        ...(met !== undefined && { met }),
      },
    ]),
  );
  return { cases, years, healthyYears, readings, figures: named, alarms: rows };
}

export function summaryLine({ cases, years, healthyYears, readings }: Scoreboard): string {
  return `${cases} cases, ${years.toFixed(1)} well-years (${healthyYears.toFixed(1)} healthy), ${(readings / 1e6).toFixed(0)} M readings`;
}

function figureCells({ label, text, target, met }: Figure): string[] {
  return [label, text, target, met === undefined ? '' : met ? 'met' : 'missed'];
}

function alarmCells(row: AlarmScore): string[] {
  return [
    row.alarm,
    String(row.faults),
    String(row.found),
    String(row.inTime),
    formatDuration(row.medianMs),
    formatDuration(row.worstMs),
    String(row.falseAlarms),
    String(row.wrong),
  ];
}

/** Each false alarm, miss and wrong word with its case: what to look into. */
export function casesText(scores: readonly CaseScore[]): string {
  return scores
    .map((score) => ({ score, lines: linesOf(score) }))
    .filter(({ lines }) => lines.length > 0)
    .map(({ score, lines }) =>
      [`${score.name} (${score.is})`, ...lines.map((line) => `  ${line}`), ''].join('\n'),
    )
    .join('\n');
}

function linesOf(score: CaseScore): string[] {
  const { falseAlarms, fault, is, measures, remarks } = score;
  const at = (ms: number): string =>
    `${new Date(ms).toISOString().slice(0, 16)} (day ${((ms - score.fromMs) / DAY_MS).toFixed(2)})`;
  const alarmLine = (what: string, { alarm, atMs, cause, why }: RaisedAlarm): string =>
    `${what} ${alarm} ${at(atMs)}${cause ? ` [${cause}]` : ''}: ${why}`;
  return [
    ...falseAlarms.map((one) => alarmLine('FALSE', one)),
    ...(fault ? faultLines(fault, at) : []),
    ...(fault?.wrong ?? []).map((one) => alarmLine('WRONG', one)),
    ...(is === 'bad-input' ? [] : measureLines(measures)),
    ...remarks.map((remark) => `remark: ${remark}`),
  ];
}

/** Numbers that are further off than the scoreboard allows on the whole. */
const LIMITS: readonly { measure: HistogramName; what: string; p: number; over: number }[] = [
  { measure: 'startReadings', what: 'start, readings', p: 0.99, over: 1 },
  { measure: 'stopReadings', what: 'stop, readings', p: 0.99, over: 1 },
  { measure: 'amps', what: 'amps, share', p: 0.9, over: 0.005 },
  { measure: 'litres', what: 'liters a run, ratio', p: 0.9, over: 0.08 },
  { measure: 'usedDay', what: 'water a day, share', p: 0.9, over: 0.05 },
  { measure: 'leak', what: 'leak, share', p: 0.9, over: 0.2 },
];

function measureLines(measures: Measures): string[] {
  const overLimit = LIMITS.flatMap(({ measure, what, p, over }) => {
    const off = quantile(measures[measure], p);
    if (off === undefined || off <= over) return [];
    const median = quantile(measures[measure], 0.5)!;
    return `FAR OFF ${what}: ${100 * p} % within ${off.toFixed(3)}, median ${median.toFixed(3)}`;
  });
  return [
    ...overLimit,
    ...measures.missed.map((run) => `RUN NOT FOUND ${run}`),
    ...measures.extra.map((run) => `NO SUCH RUN ${run}`),
  ];
}

function faultLines(fault: FaultResult, at: (ms: number) => string): string[] {
  const { what, alarm, atMs, afterMs, inTime, cause, alarms, runs } = fault;
  const lines: string[] = [];
  if (atMs === undefined) lines.push(`MISSED ${alarm}: ${what}`);
  else if (!inTime)
    lines.push(
      `LATE ${alarm} ${at(atMs)}, ${formatDuration(afterMs)}${runs === undefined ? '' : ` and ${runs} runs`} after it was knowable: ${what}`,
    );
  if (cause && !cause.first)
    lines.push(
      `CAUSE of ${alarm}${cause.second ? ' only second' : ''}: said ${cause.named.join(', ')}: ${what}`,
    );
  if (alarms > 2) lines.push(`MANY alarms: ${alarms}: ${what}`);
  return lines;
}
