/**
 * Cut-in or cut-out has moved from what was learnt or pinned. When both have moved alike the switch
 * was turned, or the transducer has drifted: from its own readings nobody can tell which, and a
 * gauge can.
 */
import type { Because } from '../../../../shared/text/en/reasons/because.ts';
import type { Reason } from '../../../../shared/text/en/reasons/reasons.ts';
import { median } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { changePoint } from '../charts/change-point.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { recentCycles, isCompleteRun, KPA_PER_PSI } from '../scene-queries.ts';
import { endedBySwitch } from './switch-ended-runs.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { isEndSeen } from '../pump/unseen-run-end.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * 3 psi, or four of its own spreads; a mechanical switch repeats to 1 or 2 psi (common practice).
 */
const MIN_SHIFT_KPA = 3 * KPA_PER_PSI;
const LIMIT_SPREADS = 4;
const RUNS = 12;
const MIN_RUNS = 8;
const CLEAR_RATIO = 0.6;
/** From here up the second point is said to have moved too. */
const NAMED_RATIO = 0.7;
/** So many runs end alike before a lower end is believed to be the switch's. */
const MIN_LOWER_ENDS = 4;
/** Both points moved alike, within this. */
const ALIKE_KPA = 2 * KPA_PER_PSI;

export const switchShift: Watch = {
  alarm: 'switch-shift',
  scope: 'pump',
  triggers: ['cycle'],
  evaluate,
};

/** One of the two points over the last runs, as it was read. */
interface PointRuns {
  runs: { startedMs: number; kpa: number }[];
  normalKpa: number;
  /** Median shift of these runs, of the limit: 1 and more is moved. */
  limitRatio: number;
  /** When the shift began, if there is one. */
  changedMs: number;
}

interface PointShift {
  nowKpa: number;
  normalKpa: number;
  shiftKpa: number;
  limitRatio: number;
}

function evaluate(scene: Scene): Evaluation {
  // Runs that end short are no cut-out of this switch, but where it opens there each time.
  // A protector ends them at one pressure too.
  const opensLower =
    scene.pump.card.protectorRestartS === undefined &&
    endedBySwitch(scene, recentCycles(scene, MIN_LOWER_ENDS, isCompleteRun));
  const cutIn = pointRuns(
    scene,
    'cutInKpa',
    (cycle) => isCompleteRun(cycle) && (opensLower || wasClosedBySwitch(scene, cycle)),
  );
  const cutOut = pointRuns(
    scene,
    'cutOutKpa',
    (cycle) =>
      isCompleteRun(cycle) && isEndSeen(scene, cycle) && (opensLower || !cycle.flags.includes('no-cut-out')),
  );
  if (!cutIn && !cutOut) return cannotTell(missing(scene));
  const maxRatio = Math.max(cutIn?.limitRatio ?? 0, cutOut?.limitRatio ?? 0);
  if (maxRatio < CLEAR_RATIO) return CLEAR;
  if (maxRatio < 1) return cannotTell('near-limit');
  return finding(cutIn, cutOut);
}

function missing({ pump: { pinned } }: Scene): Because {
  if (!pinned) return 'learning';
  return pinned.cutInKpa || pinned.cutOutKpa ? 'too-few-runs' : 'needs-pressure';
}

/**
 * After a run that something else broke off the switch is still closed: the pump starts again when
 * that lets it, wherever pressure is.
 */
function wasClosedBySwitch(scene: Scene, cycle: Cycle): boolean {
  const before = scene.pump.cycles[scene.pump.cycles.indexOf(cycle) - 1];
  return before === undefined || !(before.flags.includes('no-cut-out') || before.loadLoss !== undefined);
}

function pointRuns(
  scene: Scene,
  name: 'cutInKpa' | 'cutOutKpa',
  accepts: (cycle: Cycle) => boolean,
): PointRuns | undefined {
  const normal = scene.pump.pinned?.[name];
  if (!normal) return undefined;
  const runs = recentCycles(scene, RUNS, (cycle) => accepts(cycle) && cycle[name] !== undefined).map(
    (cycle) => ({ startedMs: cycle.startedMs, kpa: cycle[name]! }),
  );
  if (runs.length < MIN_RUNS) return undefined;
  const limit = Math.max(MIN_SHIFT_KPA, LIMIT_SPREADS * normal.spread);
  const middleShiftKpa = median(runs.map(({ kpa }) => kpa))! - normal.median;
  const from = changePoint(
    runs.map(({ kpa }) => (kpa - normal.median) * Math.sign(middleShiftKpa)),
    limit,
  );
  return {
    runs,
    normalKpa: normal.median,
    limitRatio: Math.abs(middleShiftKpa) / limit,
    changedMs: (runs[from] ?? runs[0]!).startedMs,
  };
}

function hasMoved(point: PointRuns | PointShift | undefined): boolean {
  return point !== undefined && point.limitRatio >= NAMED_RATIO;
}

/**
 * Where the point is now. Of a point that moved the runs of before are no part of that. One that
 * did not move is judged over the same time, and by as many runs as this watch asks for at least: a
 * single run of it says nothing.
 */
function shiftOf(point: PointRuns, sinceMs: number): PointShift {
  const { runs, normalKpa, limitRatio } = point;
  const since = runs.filter(({ startedMs }) => startedMs >= (hasMoved(point) ? point.changedMs : sinceMs));
  const judged = hasMoved(point) || since.length >= MIN_RUNS ? since : runs.slice(-MIN_RUNS);
  const nowKpa = median(judged.map(({ kpa }) => kpa))!;
  return { nowKpa, normalKpa, shiftKpa: nowKpa - normalKpa, limitRatio };
}

function finding(cutInRuns: PointRuns | undefined, cutOutRuns: PointRuns | undefined): Active {
  const sinceMs = Math.min(...[cutInRuns, cutOutRuns].filter(hasMoved).map((point) => point!.changedMs));
  const cutIn = cutInRuns && shiftOf(cutInRuns, sinceMs);
  const cutOut = cutOutRuns && shiftOf(cutOutRuns, sinceMs);
  const alike =
    cutIn !== undefined && cutOut !== undefined && Math.abs(cutIn.shiftKpa - cutOut.shiftKpa) < ALIKE_KPA;
  return {
    is: 'active',
    sinceMs,
    ...reasonOf(cutIn, cutOut, alike),
    evidence: {
      ...(cutIn && { cutInKpa: roundTo(cutIn.nowKpa, 0), cutInWasKpa: roundTo(cutIn.normalKpa, 0) }),
      ...(cutOut && { cutOutKpa: roundTo(cutOut.nowKpa, 0), cutOutWasKpa: roundTo(cutOut.normalKpa, 0) }),
    },
    causes: alike
      ? weighCauses({ 'switch-out-of-set': 0.48, 'transducer-fault': 0.48, serviced: 0.03 })
      : weighCauses({
          'switch-out-of-set': 0.7,
          'switch-chatter': 0.1,
          'blocked-nipple': 0.1,
          'transducer-fault': 0.1,
          serviced: 0.03,
        }),
  };
}

function reasonOf(cutIn: PointShift | undefined, cutOut: PointShift | undefined, alike: boolean): Reason {
  if (cutIn && cutOut && (alike || (hasMoved(cutIn) && hasMoved(cutOut))))
    return {
      reason: alike ? 'both-switch-points-moved-alike' : 'both-switch-points-moved',
      figures: {
        cutInKpa: cutIn.nowKpa,
        normalCutInKpa: cutIn.normalKpa,
        cutOutKpa: cutOut.nowKpa,
        normalCutOutKpa: cutOut.normalKpa,
      },
    };
  const isCutIn = (cutIn?.limitRatio ?? 0) >= (cutOut?.limitRatio ?? 0);
  const { nowKpa, normalKpa } = (isCutIn ? cutIn : cutOut)!;
  return {
    reason: 'switch-point-moved',
    figures: { point: isCutIn ? 'cut-in' : 'cut-out', nowKpa, normalKpa },
  };
}
