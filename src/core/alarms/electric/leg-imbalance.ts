/**
 * The three line currents differ too much: the largest deviation from their mean, over the mean (as
 * NEMA MG 1 defines unbalance). Current unbalance is 6 to 10 times the voltage's, which may be 1 %;
 * so 10 % and more is a fault somewhere. Makers of submersible motors allow 5 % at service-factor
 * load and 10 % at rated input (manuals of several makers agree), and have the leads rolled from
 * 2 % on. Over 25 % a phase may be lost on the far side of a transformer: there no line goes to
 * zero, and about 115, 115 and 230 % flow (from memory).
 */
import { FORM_EVIDENCE } from '../../../../shared/alarms/form-evidence.ts';
import { median } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { changePoint } from '../charts/change-point.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { recentCycles } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * The makers' 10 %, the normal of this motor and a margin for two clamps over it, and what a lost
 * phase leaves: as the head of this file says. The margin is argued, not measured.
 */
const MAX_UNBALANCE = 0.1;
const MARGIN_OVER_NORMAL = 0.05;
const ON_TWO_PHASES_UNBALANCE = 0.25;
/** Of the motor's service-factor amps: from here up it is at its service-factor load. */
const FULL_LOAD_RATIO = 0.9;
/**
 * What lasts is told from 6 % on, which is the makers' 5 % and what two clamps differ by: at full
 * load always, else where lines were even from the first. Of twenty runs, a day or more, half must
 * show it: the voltage of an evening does not do it.
 */
const LASTING_MAX_UNBALANCE = 0.06;
const LASTING_RUNS = 20;
/**
 * A hundredth under the limit before it goes, so that it does not come and go by the noise of three
 * clamps; and of the last runs the median, so that one run decides nothing (argued, not measured).
 */
const DEADBAND = 0.01;
const RUNS = 5;
/** What is usual is learnt from the first runs, and never taken to be more than this. */
const NORMAL_RUNS = 15;
const MAX_NORMAL_UNBALANCE = 0.05;

interface ImbalanceMemory {
  /** Unbalance of the first runs. */
  first: number[];
}

export const legImbalance: Watch<ImbalanceMemory> = {
  alarm: 'leg-imbalance',
  scope: 'pump',
  triggers: ['cycle'],
  initialMemory: () => ({ first: [] }),
  evaluate,
};

/** 100 x the largest deviation from the mean / the mean, as a share. */
export function unbalance(lines: readonly number[]): number {
  const mean = lines.reduce((sum, line) => sum + line, 0) / lines.length;
  return mean === 0 ? 0 : Math.max(...lines.map((line) => Math.abs(line - mean))) / mean;
}

function lineAmpsOf(cycle: Cycle): number[] | undefined {
  const { amps, amps2, amps3 } = cycle;
  return amps === undefined || amps2 === undefined || amps3 === undefined ? undefined : [amps, amps2, amps3];
}

function evaluate(scene: Scene, memory: ImbalanceMemory): Evaluation {
  const lines = scene.cycle && lineAmpsOf(scene.cycle);
  if (!scene.cycle || !lines) return cannotTell('needs-three-lines');
  if (scene.cycle.readings < 3) return cannotTell('too-few-readings');
  const firstUnbalances = memory.first;
  if (firstUnbalances.length < NORMAL_RUNS) memory.first = [...firstUnbalances, roundTo(unbalance(lines), 4)];
  const last = recentCycles(scene, RUNS, hasLines);
  if (last.length < RUNS) return cannotTell('too-few-runs');
  const current = median(last.map(unbalanceOf))!;
  const normal =
    firstUnbalances.length < NORMAL_RUNS ? 0 : Math.min(MAX_NORMAL_UNBALANCE, median(firstUnbalances) ?? 0);
  const lastingRuns = recentCycles(scene, LASTING_RUNS, hasLines);
  const lasting = lastingRuns.length < LASTING_RUNS ? undefined : median(lastingRuns.map(unbalanceOf));
  const lastingLimit = isAtFullLoad(scene, lines)
    ? LASTING_MAX_UNBALANCE
    : Math.max(LASTING_MAX_UNBALANCE, normal + MARGIN_OVER_NORMAL);
  if (firstUnbalances.length >= NORMAL_RUNS && lasting !== undefined && lasting > lastingLimit)
    return finding(runsSinceChange(lastingRuns, normal, lastingLimit), lines, normal, lastingLimit);
  if (current <= lastingLimit - DEADBAND) return CLEAR;
  if (current <= MAX_UNBALANCE) return cannotTell('near-limit');
  return finding(runsSinceChange(last, normal, MAX_UNBALANCE), lines, normal, MAX_UNBALANCE);
}

function hasLines(cycle: Cycle): boolean {
  return lineAmpsOf(cycle) !== undefined && cycle.readings >= 3;
}

function unbalanceOf(cycle: Cycle): number {
  return unbalance(lineAmpsOf(cycle)!);
}

/** Most of these runs are over the limit: those since the lines went apart. */
function runsSinceChange(runs: readonly Cycle[], normal: number, limit: number): readonly Cycle[] {
  const from = changePoint(
    runs.map((run) => unbalanceOf(run) - normal),
    limit - normal,
  );
  return from < runs.length ? runs.slice(from) : runs.slice(-1);
}

function isAtFullLoad({ pump: { card } }: Scene, lines: readonly number[]): boolean {
  const mean = lines.reduce((sum, amps) => sum + amps, 0) / lines.length;
  return card.maxAmps !== undefined && mean > FULL_LOAD_RATIO * card.maxAmps;
}

function finding(runs: readonly Cycle[], lines: readonly number[], normal: number, limit: number): Active {
  // What became worse lately counts as it is now.
  const ratio = Math.max(median(runs.map(unbalanceOf))!, median(runs.slice(-RUNS).map(unbalanceOf))!);
  const mayLackPhase = ratio > ON_TWO_PHASES_UNBALANCE;
  return {
    is: 'active',
    sinceMs: runs[0]!.startedMs,
    priority: mayLackPhase ? 'now' : 'soon',
    reason: 'lines-unbalanced',
    figures: { linesA: [...lines], unbalance: ratio, ...(normal > 0 && { normalUnbalance: normal }) },
    evidence: {
      unbalance: roundTo(ratio, 3),
      limit: roundTo(limit, 3),
      amps: roundTo(lines[0]!),
      amps2: roundTo(lines[1]!),
      amps3: roundTo(lines[2]!),
      ...(mayLackPhase && FORM_EVIDENCE['on-two-phases']),
    },
    causes: weighCauses({
      'supply-voltage': 0.4,
      'failing-motor': mayLackPhase ? 0.15 : 0.3,
      'lost-leg': mayLackPhase ? 0.4 : 0.2,
      'clamp-off': 0.1,
    }),
  };
}
