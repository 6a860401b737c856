/**
 * Starts within one run. Contacts that bounce make the motor start again and again before it runs, and between two of its readings nobody
 * sees it stop; but the current of a start, over within a second in any sound one (common practice, no source), then lasts for as long
 * as they bounce. A motor that comes up slowly does that too, and draws its full starting current meanwhile; broken by pauses it is about
 * half of that. A soft starter takes seconds from the first day, so only what was sound before is told.
 */
import { median } from '../baseline/robust.ts';
import type { Cycle } from '../cycles/cycle.ts';
import { freshCycles, numberOf } from './facts.ts';
import { sayTime, tidy } from './say.ts';
import type { Finding, Memo, Scene } from './scene.ts';
import { weigh } from './weigh.ts';

const SOUND_STARTS = 15;
/** Of the last five starts four: one may have been read between two bounces, and one alone is a stumble. */
const LAST_RUNS = 5;
const LONG_RUNS = 4;
/** Starting current is five times the running one and more (NEC tables 430.7(B) and 430.248); with pauses half of that or less. */
const BROKEN_TIMES = 3.5;

/** A finding while the last starts are long, `undefined` where they are not. */
export function bouncedStarts(scene: Scene, memo: Memo): Finding | undefined {
  const { cycle } = scene;
  if (!cycle || scene.pump.card.control === 'variable-speed') return undefined;
  const sound = numberOf(memo, 'soundStarts', 0);
  if (sound < SOUND_STARTS) {
    memo['soundStarts'] = cycle.longStart ? 0 : sound + 1;
    return undefined;
  }
  const runs = freshCycles(scene, LAST_RUNS);
  const long = runs.filter((run) => run.longStart !== undefined);
  return long.length < LONG_RUNS ? undefined : finding(long);
}

function finding(long: readonly Cycle[]): Finding {
  const lastsS = median(long.map((run) => run.longStart!.forS))!;
  const times = median(long.map((run) => run.longStart!.times))!;
  const broken = times < BROKEN_TIMES;
  return {
    sinceMs: long[0]!.startedMs,
    why: `In ${long.length} of the last ${LAST_RUNS} runs the current of the start lasted ${sayTime(lastsS)}, where it used to be over at once: ${broken ? 'the motor starts some times at each start, as of contacts that bounce' : 'the motor comes up slowly'}.`,
    evidence: { runs: long.length, startLastsS: tidy(lastsS, 0), timesRunning: tidy(times, 1) },
    causes: broken
      ? weigh({
          'switch-chatter': 0.7,
          'supply-voltage': 0.1,
          'failing-capacitor': 0.1,
          'blocked-nipple': 0.1,
        })
      : weigh({
          'failing-capacitor': 0.45,
          'stuck-rotor': 0.2,
          'supply-voltage': 0.2,
          'switch-chatter': 0.15,
        }),
  };
}
