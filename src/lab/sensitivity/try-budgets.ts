/**
 * What the budget of false alarms (`falseAlarmsPerYear` of a card) costs: faults of the kinds whose
 * limits it moves, played once, and their watches asked again with other budgets on the card.
 */
import { CATALOGUE, type StatisticalKind } from '../../../shared/alarms/catalogue.ts';
import { lowerMedian } from '../score/scoreboard.ts';
import type { Card } from '../../core/domain/card.ts';
import type { CorpusCase } from '../score/case.ts';
import { judge } from '../score/judge.ts';
import { casesOf } from '../score/sets.ts';
import { askAll, askReached } from './ask-again.ts';
import { isAffordable } from './fixed-set.ts';
import type { Observed } from './observed.ts';
import { playOrLoad } from './saved-case.ts';
import { bundleEngine, bundleWatches } from './scaled-engine.ts';

export const BUDGETS = [0.02, 0.05, 0.1, 0.5, 2] as const;

export const CHARTED = Object.entries(CATALOGUE)
  .filter(([, row]) => 'chance' in row)
  .map(([kind]) => kind as StatisticalKind);

/** What faults of one kind came to at one budget. */
export interface BudgetResult {
  faults: number;
  found: number;
  /** Of those found, since the fault began. */
  medianAfterMs?: number;
}

export type BudgetResults = Record<StatisticalKind, Record<string, BudgetResult>>;

const MAX_DAYS = 60;

/** Faults of these kinds in all sizes, of both plants. */
export function budgetCases(): CorpusCase[] {
  return [...casesOf('tuned', false), ...casesOf('first', false)]
    .filter(isAffordable)
    .filter(
      ({ is, fault, days }) =>
        is === 'fault' && days <= MAX_DAYS && CHARTED.some((kind) => kind === fault?.alarms[0]),
    );
}

/** `top` is the project's folder; played cases are kept in `folder`. */
export async function tryBudgets(options: {
  top: string;
  folder: string;
  cases: readonly CorpusCase[];
  onCase?: (name: string) => void;
}): Promise<BudgetResults> {
  const { top, folder, cases, onCase } = options;
  const engine = (await bundleEngine(top))((_id, value) => value);
  const makeWatches = await bundleWatches(top);
  const after = new Map<string, (number | undefined)[]>();
  for (const corpusCase of cases) {
    const kind = corpusCase.fault!.alarms[0]!;
    const { observed, played } = playOrLoad(engine, corpusCase, folder);
    const before = askAll(
      makeWatches((_id, value) => value),
      observed,
    );
    for (const budget of BUDGETS) {
      const watches = makeWatches((_id, value) => value);
      const alarms = askReached(watches, withBudget(observed, budget), before, CHARTED);
      const atMs = judge(corpusCase, { ...played, alarms }).fault?.atMs;
      const key = `${kind} ${budget}`;
      const afterMs = atMs === undefined ? undefined : atMs - corpusCase.fault!.beganMs;
      after.set(key, [...(after.get(key) ?? []), afterMs]);
    }
    onCase?.(corpusCase.name);
    await new Promise(setImmediate);
  }
  return resultsOf(after);
}

function resultsOf(after: ReadonlyMap<string, readonly (number | undefined)[]>): BudgetResults {
  const ofKind = (kind: StatisticalKind): Record<string, BudgetResult> =>
    Object.fromEntries(
      BUDGETS.map((budget) => [budget, resultOf(after.get(`${kind} ${budget}`) ?? [])] as const),
    );
  return Object.fromEntries(CHARTED.map((kind) => [kind, ofKind(kind)] as const)) as BudgetResults;
}

function resultOf(after: readonly (number | undefined)[]): BudgetResult {
  const found = after.filter((ms) => ms !== undefined).toSorted((a, b) => a - b);
  const medianAfterMs = lowerMedian(found);
  return {
    faults: after.length,
    found: found.length,
    ...(medianAfterMs !== undefined && { medianAfterMs }),
  };
}

function withBudget(observed: readonly Observed[], falseAlarmsPerYear: number): Observed[] {
  const cards = new Map<Card, Card>();
  return observed.map((one) => {
    if (one.is === 'act') return one;
    const { well } = one.scene;
    const card = cards.get(well.card) ?? { ...well.card, falseAlarmsPerYear };
    cards.set(well.card, card);
    return { is: 'scene', scene: { ...one.scene, well: { ...well, card } } };
  });
}
