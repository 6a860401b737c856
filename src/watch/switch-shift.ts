/**
 * Cut-in or cut-out has moved from what was learnt or pinned. When both have moved alike the switch was turned, or the transducer
 * has drifted: from its own readings nobody can tell which, and a gauge can.
 */
import { median } from '../baseline/robust.ts';
import type { Cycle } from '../cycles/cycle.ts';
import { freshCycles, isWhole, PSI } from './facts.ts';
import { endsByItsSwitch } from './own-switch.ts';
import { sayPressure, tidy } from './say.ts';
import type { Finding, Scene, Watch } from './scene.ts';
import { endIsSeen } from './unseen-end.ts';
import { weigh } from './weigh.ts';

/** 3 psi, or four of its own spreads; a mechanical switch repeats to 1 or 2 psi (common practice). */
const MOVED_KPA = 3 * PSI;
const SPREADS = 4;
const RUNS = 12;
const LEAST_RUNS = 8;
const BACK_SHARE = 0.6;
/** So many runs end alike before a lower end is believed to be the switch's. */
const OPENS_RUNS = 4;
/** Both points moved alike, within this. */
const ALIKE_KPA = 2 * PSI;

export const switchShift: Watch = {
  alarm: 'switch-shift',
  each: 'pump',
  on: ['cycle'],
  onDelayS: 0,
  offDelayS: 2 * 86_400,
  look,
};

interface Move {
  is: number;
  was: number;
  by: number;
  /** Of the limit: 1 and more is moved. */
  share: number;
  sinceMs: number;
}

function look(scene: Scene): Finding | null | undefined {
  // Runs that end short are no cut-out of this switch, but where it opens there each time.
  const lower = endsByItsSwitch(scene, freshCycles(scene, OPENS_RUNS, isWhole));
  const cutIn = moved(
    scene,
    'cutInKpa',
    (cycle) => isWhole(cycle) && (lower || closedBySwitch(scene, cycle)),
  );
  const cutOut = moved(
    scene,
    'cutOutKpa',
    (cycle) => isWhole(cycle) && endIsSeen(scene, cycle) && (lower || !cycle.flags.includes('no-cut-out')),
  );
  if (!cutIn && !cutOut) return undefined;
  const most = Math.max(cutIn?.share ?? 0, cutOut?.share ?? 0);
  if (most < BACK_SHARE) return null;
  if (most < 1) return undefined;
  return finding(cutIn, cutOut);
}

/** After a run that something else broke off the switch is still closed: the pump starts again when that lets it, wherever pressure is. */
function closedBySwitch(scene: Scene, cycle: Cycle): boolean {
  const before = scene.pump.cycles[scene.pump.cycles.indexOf(cycle) - 1];
  return before === undefined || !(before.flags.includes('no-cut-out') || before.broke !== undefined);
}

function moved(
  scene: Scene,
  name: 'cutInKpa' | 'cutOutKpa',
  want: (cycle: Cycle) => boolean,
): Move | undefined {
  const normal = scene.pump.pinned?.[name];
  if (!normal) return undefined;
  const last = freshCycles(scene, RUNS, (cycle) => want(cycle) && cycle[name] !== undefined);
  if (last.length < LEAST_RUNS) return undefined;
  const is = median(last.map((cycle) => cycle[name]!))!;
  const limit = Math.max(MOVED_KPA, SPREADS * normal.spread);
  const by = is - normal.median;
  const first = last.find((cycle) => (cycle[name]! - normal.median) * Math.sign(by) > BACK_SHARE * limit);
  return {
    is,
    was: normal.median,
    by,
    share: Math.abs(by) / limit,
    sinceMs: (first ?? last[0]!).startedMs,
  };
}

function finding(cutIn: Move | undefined, cutOut: Move | undefined): Finding {
  const parts: string[] = [];
  if (cutIn && cutIn.share >= 0.7)
    parts.push(`cut-in from ${sayPressure(cutIn.was)} to ${sayPressure(cutIn.is)}`);
  if (cutOut && cutOut.share >= 0.7)
    parts.push(`cut-out from ${sayPressure(cutOut.was)} to ${sayPressure(cutOut.is)}`);
  const alike = cutIn !== undefined && cutOut !== undefined && Math.abs(cutIn.by - cutOut.by) < ALIKE_KPA;
  return {
    sinceMs: Math.max(cutIn?.sinceMs ?? 0, cutOut?.sinceMs ?? 0),
    why: `The switch has moved: ${parts.join(', ')}${alike ? '. Both moved alike, which a drifting transducer does too: a gauge can tell' : ''}.`,
    evidence: {
      ...(cutIn && { cutInKpa: tidy(cutIn.is, 0), cutInWasKpa: tidy(cutIn.was, 0) }),
      ...(cutOut && { cutOutKpa: tidy(cutOut.is, 0), cutOutWasKpa: tidy(cutOut.was, 0) }),
    },
    causes: alike
      ? weigh({ 'switch-out-of-set': 0.48, 'transducer-fault': 0.48 })
      : weigh({
          'switch-out-of-set': 0.7,
          'switch-chatter': 0.1,
          'blocked-nipple': 0.1,
          'transducer-fault': 0.1,
        }),
  };
}
