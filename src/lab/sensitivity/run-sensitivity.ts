/**
 * What each threshold of the watches costs: the fixed set is played once, and for each threshold at
 * 0.8 and 1.2 of its value the watches are asked again over what they saw. Each answer is a line in
 * a file, and a second start goes on after the last of them.
 */
import { appendFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { AlarmEvent } from '../../../shared/api/events.ts';
import type { WatchedKind } from '../../../shared/alarms/catalogue.ts';
import type { AlarmKind } from '../../../shared/text/en/alarms/kinds.ts';
import type { CorpusCase } from '../score/case.ts';
import { judge } from '../score/judge.ts';
import { askAll, askReached } from './ask-again.ts';
import { reachOf } from './reach.ts';
import { playOrLoad, type SavedCase } from './saved-case.ts';
import {
  bundleEngine,
  bundleUses,
  bundleWatches,
  type Engine,
  type Scale,
  type Watches,
} from './scaled-engine.ts';
import { FACTORS, scaledValue, type Factor } from './scaled-value.ts';
import { constantIdOf, type Threshold } from './thresholds.ts';

/** How one case went with one threshold scaled; `id` '' is the engine as it is. */
export interface Outcome {
  case: string;
  id: string;
  factor: Factor | 1;
  /** What the threshold was. */
  value?: number;
  /**
   * It was not used in this well, and so was not tried: the outcome is that of the engine as it is.
   */
  unused?: true;
  /** Of a faulty well: whether a right alarm was raised. */
  found?: boolean;
  /** Kinds that were raised while the well was sound. */
  falseAlarms: AlarmKind[];
}

export interface SensitivityOptions {
  top: string;
  /** Where played cases and outcomes are kept. */
  folder: string;
  cases: readonly CorpusCase[];
  thresholds: readonly Threshold[];
  onCase?: (name: string, outcomes: number) => void;
}

const OUTCOMES = 'outcomes.jsonl';

/**
 * All outcomes of these cases and thresholds: those that were kept, and those that were missing.
 */
export async function runSensitivity(options: SensitivityOptions): Promise<Outcome[]> {
  const { top, folder, cases, thresholds, onCase } = options;
  mkdirSync(folder, { recursive: true });
  const tools: Tools = {
    engine: (await bundleEngine(top))((_id, value) => value),
    makeWatches: await bundleWatches(top),
    makeUses: await bundleUses(top),
    reach: reachOf(top),
  };
  const known = keptOutcomes(folder);
  for (const corpusCase of cases) {
    const trials = trialsOf(corpusCase, thresholds, tools.reach);
    const missing = trials.filter(({ id, factor }) => !known.has(keyOf(corpusCase.name, id, factor)));
    if (missing.length === 0) continue;
    for (const outcome of tryCase(corpusCase, missing, folder, tools)) {
      known.set(keyOf(corpusCase.name, outcome.id, outcome.factor), outcome);
      appendFileSync(join(folder, OUTCOMES), `${JSON.stringify(outcome)}\n`);
    }
    onCase?.(corpusCase.name, missing.length);
    // A test's own reports get their turn.
    await new Promise(setImmediate);
  }
  const names = new Set(cases.map(({ name }) => name));
  const ids = new Set(['', ...thresholds.map(({ id }) => id)]);
  return [...known.values()].filter((one) => names.has(one.case) && ids.has(one.id));
}

interface Tools {
  engine: Engine;
  makeWatches: (scale: Scale) => Watches;
  makeUses: (used: (constantId: string) => void) => Watches;
  reach: ReadonlyMap<string, readonly WatchedKind[]>;
}

/** One threshold at one factor; the engine as it is has no threshold. */
interface Trial {
  id: string;
  factor: Factor | 1;
  reached: readonly WatchedKind[];
  isExported: boolean;
}

function trialsOf(corpusCase: CorpusCase, thresholds: readonly Threshold[], reach: Tools['reach']): Trial[] {
  const asItIs: Trial = { id: '', factor: 1, reached: [], isExported: false };
  return [
    asItIs,
    ...thresholds.flatMap(({ id, file, isExported }) => {
      const reached = reachedIn(corpusCase, file, reach);
      return reached ? FACTORS.map((factor) => ({ id, factor, reached, isExported })) : [];
    }),
  ];
}

function* tryCase(
  corpusCase: CorpusCase,
  trials: readonly Trial[],
  folder: string,
  { engine, makeWatches, makeUses }: Tools,
): Generator<Outcome> {
  const saved = playOrLoad(engine, corpusCase, folder);
  const used = new Set<string>();
  const before = askAll(
    makeUses((id) => used.add(id)),
    saved.observed,
  );
  for (const { id, factor, reached, isExported } of trials) {
    let value: number | undefined;
    const watches = makeWatches((one, is) => {
      if (one !== id) return is;
      value = is;
      return scaledValue(id, is, factor);
    });
    const unused = id !== '' && !isExported && !used.has(constantIdOf(id));
    const alarms =
      unused || id === ''
        ? before.alarms
        : askReached(watches, saved.observed, before, reached, stopsAt(corpusCase));
    yield {
      ...outcomeOf(corpusCase, saved, alarms),
      id,
      factor,
      ...(value !== undefined && { value }),
      ...(unused && { unused }),
    };
  }
}

function keptOutcomes(folder: string): Map<string, Outcome> {
  const file = join(folder, OUTCOMES);
  const lines = existsSync(file) ? readFileSync(file, 'utf8').split('\n').filter(Boolean) : [];
  const outcomes = lines.map((line) => JSON.parse(line) as Outcome);
  return new Map(outcomes.map((one) => [keyOf(one.case, one.id, one.factor), one]));
}

function keyOf(name: string, id: string, factor: Factor | 1): string {
  return `${name} ${id} ${factor}`;
}

/**
 * The watches that a threshold reaches; undefined where asking would tell nothing: another kind's
 * fault is for its own thresholds. What groups and delays alarms of all kinds reaches no watch, and
 * is tried everywhere.
 */
function reachedIn(
  { fault }: CorpusCase,
  file: string,
  reach: ReadonlyMap<string, readonly WatchedKind[]>,
): readonly WatchedKind[] | undefined {
  if (file.startsWith('src/core/hydraulics/')) return undefined;
  const reached = reach.get(file);
  if (!reached) return file.startsWith('src/core/alarms/lifecycle/') ? [] : undefined;
  return !fault || fault.alarms.some((alarm) => reached.some((kind) => kind === alarm)) ? reached : undefined;
}

/** Once a fault is found nothing that comes later changes the verdict. */
function stopsAt({ fault }: CorpusCase): (event: AlarmEvent) => boolean {
  return ({ alarm, state, at }) =>
    fault !== undefined &&
    state === 'raised' &&
    Date.parse(at) >= fault.beganMs &&
    fault.alarms.includes(alarm);
}

function outcomeOf(
  corpusCase: CorpusCase,
  { played }: SavedCase,
  alarms: AlarmEvent[],
): Pick<Outcome, 'case' | 'found' | 'falseAlarms'> {
  const { falseAlarms, fault } = judge(corpusCase, { ...played, alarms });
  return {
    case: corpusCase.name,
    ...(fault && { found: fault.atMs !== undefined }),
    falseAlarms: falseAlarms.map(({ alarm }) => alarm),
  };
}
