/**
 * Cut-in or cut-out has moved from what was learnt or pinned. When both have moved alike the switch was turned, or the transducer
 * has drifted: from its own readings nobody can tell which, and a gauge can.
 */
import { DAY_S } from '../../../../shared/units/duration.ts';
import { median } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { recentCycles, isCompleteRun, KPA_PER_PSI } from '../scene-queries.ts';
import { endedBySwitch } from './switch-ended-runs.ts';
import { formatPressure, roundTo } from '../format.ts';
import type { Finding, Scene, Watch } from '../scene.ts';
import { isEndSeen } from '../pump/unseen-run-end.ts';
import { weighCauses } from '../weigh-causes.ts';

/** 3 psi, or four of its own spreads; a mechanical switch repeats to 1 or 2 psi (common practice). */
const MIN_SHIFT_KPA = 3 * KPA_PER_PSI;
const LIMIT_SPREADS = 4;
const RUNS = 12;
const MIN_RUNS = 8;
const CLEAR_RATIO = 0.6;
/** So many runs end alike before a lower end is believed to be the switch's. */
const MIN_LOWER_ENDS = 4;
/** Both points moved alike, within this. */
const ALIKE_KPA = 2 * KPA_PER_PSI;

export const switchShift: Watch = {
  alarm: 'switch-shift',
  scope: 'pump',
  triggers: ['cycle'],
  onDelayS: 0,
  offDelayS: 2 * DAY_S,
  evaluate,
};

interface PointShift {
  nowKpa: number;
  normalKpa: number;
  shiftKpa: number;
  /** Of the limit: 1 and more is moved. */
  limitRatio: number;
  sinceMs: number;
}

function evaluate(scene: Scene): Finding | null | undefined {
  // Runs that end short are no cut-out of this switch, but where it opens there each time.
  const opensLower = endedBySwitch(scene, recentCycles(scene, MIN_LOWER_ENDS, isCompleteRun));
  const cutIn = pointShift(
    scene,
    'cutInKpa',
    (cycle) => isCompleteRun(cycle) && (opensLower || wasClosedBySwitch(scene, cycle)),
  );
  const cutOut = pointShift(
    scene,
    'cutOutKpa',
    (cycle) =>
      isCompleteRun(cycle) && isEndSeen(scene, cycle) && (opensLower || !cycle.flags.includes('no-cut-out')),
  );
  if (!cutIn && !cutOut) return undefined;
  const maxRatio = Math.max(cutIn?.limitRatio ?? 0, cutOut?.limitRatio ?? 0);
  if (maxRatio < CLEAR_RATIO) return null;
  if (maxRatio < 1) return undefined;
  return finding(cutIn, cutOut);
}

/** After a run that something else broke off the switch is still closed: the pump starts again when that lets it, wherever pressure is. */
function wasClosedBySwitch(scene: Scene, cycle: Cycle): boolean {
  const before = scene.pump.cycles[scene.pump.cycles.indexOf(cycle) - 1];
  return before === undefined || !(before.flags.includes('no-cut-out') || before.loadLoss !== undefined);
}

function pointShift(
  scene: Scene,
  name: 'cutInKpa' | 'cutOutKpa',
  accepts: (cycle: Cycle) => boolean,
): PointShift | undefined {
  const normal = scene.pump.pinned?.[name];
  if (!normal) return undefined;
  const last = recentCycles(scene, RUNS, (cycle) => accepts(cycle) && cycle[name] !== undefined);
  if (last.length < MIN_RUNS) return undefined;
  const nowKpa = median(last.map((cycle) => cycle[name]!))!;
  const limit = Math.max(MIN_SHIFT_KPA, LIMIT_SPREADS * normal.spread);
  const shiftKpa = nowKpa - normal.median;
  const first = last.find(
    (cycle) => (cycle[name]! - normal.median) * Math.sign(shiftKpa) > CLEAR_RATIO * limit,
  );
  return {
    nowKpa,
    normalKpa: normal.median,
    shiftKpa,
    limitRatio: Math.abs(shiftKpa) / limit,
    sinceMs: (first ?? last[0]!).startedMs,
  };
}

function finding(cutIn: PointShift | undefined, cutOut: PointShift | undefined): Finding {
  const parts: string[] = [];
  if (cutIn && cutIn.limitRatio >= 0.7)
    parts.push(`cut-in from ${formatPressure(cutIn.normalKpa)} to ${formatPressure(cutIn.nowKpa)}`);
  if (cutOut && cutOut.limitRatio >= 0.7)
    parts.push(`cut-out from ${formatPressure(cutOut.normalKpa)} to ${formatPressure(cutOut.nowKpa)}`);
  const alike =
    cutIn !== undefined && cutOut !== undefined && Math.abs(cutIn.shiftKpa - cutOut.shiftKpa) < ALIKE_KPA;
  return {
    sinceMs: Math.max(cutIn?.sinceMs ?? 0, cutOut?.sinceMs ?? 0),
    why: `The switch has moved: ${parts.join(', ')}${alike ? '. Both moved alike, which a drifting transducer does too: a gauge can tell' : ''}.`,
    evidence: {
      ...(cutIn && { cutInKpa: roundTo(cutIn.nowKpa, 0), cutInWasKpa: roundTo(cutIn.normalKpa, 0) }),
      ...(cutOut && { cutOutKpa: roundTo(cutOut.nowKpa, 0), cutOutWasKpa: roundTo(cutOut.normalKpa, 0) }),
    },
    causes: alike
      ? weighCauses({ 'switch-out-of-set': 0.48, 'transducer-fault': 0.48 })
      : weighCauses({
          'switch-out-of-set': 0.7,
          'switch-chatter': 0.1,
          'blocked-nipple': 0.1,
          'transducer-fault': 0.1,
        }),
  };
}
