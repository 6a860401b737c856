/**
 * Starts within one run. Contacts that bounce make the motor start again and again before it runs,
 * and between two of its readings nobody sees it stop; but the current of a start, over within a
 * second in any sound one (common practice, no source), then lasts for as long as they bounce. A
 * motor that comes up slowly does that too, and draws its full starting current meanwhile; broken
 * by pauses it is about half of that. A soft starter takes seconds from the first day, so only what
 * was sound before is told.
 */
import { median } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import type { Active } from '../evaluation.ts';
import { normalAmpsOf, recentCycles } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * A day or two of a house: a soft starter would have shown itself in each of them (argued, not
 * measured).
 */
const MIN_SOUND_STARTS = 15;
/**
 * Of the last five starts four: one may have been read between two bounces, and one alone is a
 * stumble.
 */
const LAST_RUNS = 5;
const MIN_LONG_STARTS = 4;
/**
 * Starting current is five times the running one and more (NEC tables 430.7(B) and 430.248); with
 * pauses half of that or less.
 */
const MAX_BOUNCE_RATIO = 3.5;

/**
 * The part of a watch's memory that counts the sound starts seen before the first long one counts.
 */
export interface SoundStartMemory {
  soundStarts?: number;
}

/** Active while the last starts are long, undefined while they are not. */
export function bouncedStarts(scene: Scene, memory: SoundStartMemory): Active | undefined {
  const { cycle } = scene;
  if (!cycle || scene.pump.card.control === 'variable-speed') return undefined;
  const sound = memory.soundStarts ?? 0;
  if (sound < MIN_SOUND_STARTS) {
    memory.soundStarts = cycle.longStart ? 0 : sound + 1;
    return undefined;
  }
  const runs = recentCycles(scene, LAST_RUNS);
  const long = runs.filter((run) => run.longStart !== undefined && isStartCurrent(scene, run));
  return long.length < MIN_LONG_STARTS ? undefined : finding(long);
}

/**
 * More than a loaded pump draws. Where runs lose their water their first seconds stand over the
 * rest as well, and are the run of a sound pump.
 */
function isStartCurrent(scene: Scene, { amps = 0, longStart }: Cycle): boolean {
  const loadedA = scene.pump.card.maxAmps ?? normalAmpsOf(scene) ?? 0;
  return longStart!.ratio * amps > loadedA;
}

function finding(long: readonly Cycle[]): Active {
  const lastsS = median(long.map((run) => run.longStart!.durationS))!;
  const times = median(long.map((run) => run.longStart!.ratio))!;
  const broken = times < MAX_BOUNCE_RATIO;
  return {
    is: 'active',
    sinceMs: long[0]!.startedMs,
    reason: broken ? 'starts-bounce' : 'starts-slow',
    figures: { runs: long.length, ofRuns: LAST_RUNS, startS: lastsS },
    evidence: { runs: long.length, startLastsS: roundTo(lastsS, 0), timesRunning: roundTo(times, 1) },
    causes: broken
      ? weighCauses({
          'switch-chatter': 0.7,
          'supply-voltage': 0.1,
          'failing-capacitor': 0.1,
          'blocked-nipple': 0.1,
        })
      : weighCauses({
          'failing-capacitor': 0.45,
          'stuck-rotor': 0.2,
          'supply-voltage': 0.2,
          'switch-chatter': 0.15,
        }),
  };
}
