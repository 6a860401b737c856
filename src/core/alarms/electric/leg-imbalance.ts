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
  const last = recentCycles(scene, RUNS, (cycle) => lineAmpsOf(cycle) !== undefined && cycle.readings >= 3);
  if (last.length < RUNS) return cannotTell('too-few-runs');
  const current = median(last.map((cycle) => unbalance(lineAmpsOf(cycle)!)))!;
  const normal =
    firstUnbalances.length < NORMAL_RUNS ? 0 : Math.min(MAX_NORMAL_UNBALANCE, median(firstUnbalances) ?? 0);
  const lasting = lastingUnbalance(scene);
  const lastingLimit = isAtFullLoad(scene, lines)
    ? LASTING_MAX_UNBALANCE
    : Math.max(LASTING_MAX_UNBALANCE, normal + MARGIN_OVER_NORMAL);
  const sinceMs = last[0]!.startedMs;
  if (firstUnbalances.length >= NORMAL_RUNS && lasting !== undefined && lasting > lastingLimit)
    return finding({ lines, ratio: Math.max(lasting, current), normal, limit: lastingLimit, sinceMs });
  if (current <= lastingLimit - DEADBAND) return CLEAR;
  if (current <= MAX_UNBALANCE) return cannotTell('near-limit');
  return finding({ lines, ratio: current, normal, limit: MAX_UNBALANCE, sinceMs });
}

/** Median over the last twenty runs; undefined with fewer. */
function lastingUnbalance(scene: Scene): number | undefined {
  const runs = recentCycles(
    scene,
    LASTING_RUNS,
    (cycle) => lineAmpsOf(cycle) !== undefined && cycle.readings >= 3,
  );
  return runs.length < LASTING_RUNS ? undefined : median(runs.map((cycle) => unbalance(lineAmpsOf(cycle)!)));
}

function isAtFullLoad({ pump: { card } }: Scene, lines: readonly number[]): boolean {
  const mean = lines.reduce((sum, amps) => sum + amps, 0) / lines.length;
  return card.maxAmps !== undefined && mean > FULL_LOAD_RATIO * card.maxAmps;
}

interface Unbalanced {
  lines: readonly number[];
  ratio: number;
  normal: number;
  limit: number;
  sinceMs: number;
}

function finding({ lines, ratio, normal, limit, sinceMs }: Unbalanced): Active {
  const mayLackPhase = ratio > ON_TWO_PHASES_UNBALANCE;
  return {
    is: 'active',
    sinceMs,
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
