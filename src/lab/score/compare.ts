/**
 * Several sets of cases beside each other: what the engine does for the wells that it was tuned
 * for, and for wells that it has never seen. Only totals, so that a held-out set stays unknown.
 */
import { ALARM_KINDS, type AlarmKind } from '../../../shared/text/en/alarms/kinds.ts';
import { formatDuration, type Figure } from './figures.ts';
import { boardObject, summaryLine } from './print.ts';
import type { Scoreboard } from './scoreboard.ts';
import { markdown, table } from './table.ts';

export interface Column {
  name: string;
  label: string;
  board: Scoreboard;
  figures: readonly Figure[];
}

const KINDS_NOTE =
  'By kind: found of faults, median delay, false alarms a healthy well-year, right cause first of those asked.';

export function compareText(columns: readonly Column[]): string {
  const { summaries, figures, kinds } = partsOf(columns);
  return [...summaries, '', table(figures), '', KINDS_NOTE, table(kinds), ''].join('\n');
}

export function compareMarkdown(columns: readonly Column[]): string {
  const { summaries, figures, kinds } = partsOf(columns);
  const lines = ([head, ...rows]: readonly string[][]): string[] => markdown(head!, rows);
  const listed = summaries.map((line) => `- ${line}`);
  return [...listed, '', ...lines(figures), '', KINDS_NOTE, '', ...lines(kinds), ''].join('\n');
}

export function compareJson(columns: readonly Column[]): string {
  return JSON.stringify({
    sets: Object.fromEntries(columns.map(({ name, board, figures }) => [name, boardObject(board, figures)])),
  });
}

function partsOf(columns: readonly Column[]): {
  summaries: string[];
  figures: string[][];
  kinds: string[][];
} {
  const labels = columns.map(({ label }) => label);
  return {
    summaries: columns.map(({ label, board }) => `${label}: ${summaryLine(board)}`),
    figures: [['', 'target', ...labels], ...figureRows(columns)],
    kinds: [['alarm', ...labels], ...kindRows(columns)],
  };
}

/** All columns have the same figures in the same order. */
function figureRows(columns: readonly Column[]): string[][] {
  return columns[0]!.figures.map(({ label, target }, at) => [
    label,
    target,
    ...columns.map(({ figures }) => {
      const { text, met } = figures[at]!;
      return met === false ? `${text} missed` : text;
    }),
  ]);
}

function kindRows(columns: readonly Column[]): string[][] {
  return ALARM_KINDS.filter((kind) =>
    columns.some(({ board }) => board.rows.some(({ alarm }) => alarm === kind)),
  ).map((kind) => [kind, ...columns.map(({ board }) => kindCell(board, kind))]);
}

function kindCell({ rows, healthyYears }: Scoreboard, kind: AlarmKind): string {
  const row = rows.find(({ alarm }) => alarm === kind);
  if (!row) return '-';
  const { faults, found, medianMs, falseAlarms, causes, causesFirst } = row;
  const aYear = healthyYears === 0 ? '-' : (falseAlarms / healthyYears).toFixed(2);
  const cause = causes === 0 ? '-' : `${causesFirst}/${causes}`;
  return [`${found}/${faults}`, formatDuration(medianMs), aYear, cause].join('  ');
}
