/**
 * The knee: a tank whose precharge stands over cut-in runs empty before the pump starts. Then
 * pressure falls away at once, the pump starts, and pressure jumps back to the precharge before it
 * climbs. Narrow plumbing between pump and gauge jumps too, but it drops by as much at the stop.
 * Seen only where readings come every few seconds; the pressure jumped to is the precharge itself.
 */
import { median } from 'simple-statistics';
import { fitLine, lineValueAt } from './linear-fit.ts';
import type { Trace } from './trace.ts';

/** Pressures jumped to in the last runs, newest last; 0 where there was none. */
export type Knee = number[];

/** Most of the last eight: a draw at the start hides one now and then (argued, not measured). */
const MAX_RUNS = 8;
const MIN_KNEES = 5;
/** A jump is at least this, kPa, over the noise and over the drop at the stop: 2 psi. */
const MIN_JUMP_KPA = 14;
/**
 * After the jump and the water's swing, and before the fill has climbed far (argued, not measured).
 */
const HEAD_FROM_S = 3;
const HEAD_TO_S = 30;

/** Notes a whole trace. `lowKpa`: lowest reading around the start; `noiseKpa`: of one reading. */
export function recordKnee(knee: Knee, trace: Trace, options: { lowKpa: number; noiseKpa: number }): void {
  const { startS, stopS, run, after } = trace;
  if (startS === undefined || stopS === undefined) return;
  const from = run.s.findIndex((s) => s >= startS + HEAD_FROM_S);
  const to = run.s.filter((s) => s <= startS + HEAD_TO_S).length;
  const head = from < 0 ? undefined : fitLine(run.s, run.kpa, from, to);
  const tail = fitLine(run.s, run.kpa, Math.max(0, run.s.length - 4));
  if (!head || head.n < 3 || !tail || after.kpa.length === 0) return;
  const kneeKpa = lineValueAt(head, startS);
  const drop = Math.max(0, lineValueAt(tail, stopS) - after.kpa[0]!);
  const jumps = kneeKpa - options.lowKpa > MIN_JUMP_KPA + 3 * options.noiseKpa + drop;
  knee.push(jumps ? Math.round(kneeKpa * 10) / 10 : 0);
  if (knee.length > MAX_RUNS) knee.shift();
}

/** Gauge pressure of the knee, where most of the last runs show one. */
export function detectedKneeKpa(knee: Knee): number | undefined {
  // Asked each minute, and hardly ever is there one.
  let seen = 0;
  for (const kpa of knee) if (kpa > 0) seen++;
  return seen >= MIN_KNEES ? median(knee.filter((kpa) => kpa > 0)) : undefined;
}
