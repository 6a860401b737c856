/**
 * The three line currents differ too much: the largest deviation from their mean, over the mean (as NEMA MG 1 defines unbalance).
 * Current unbalance is 6 to 10 times the voltage's, which may be 1 %; so 10 % and more is a fault somewhere. What this motor had from the
 * first is allowed 5 points more.
 */
import { median } from '../baseline/robust.ts';
import type { Cycle } from '../cycles/cycle.ts';
import { freshCycles, listOf } from './facts.ts';
import { sayAmps, sayShare, tidy } from './say.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

const LIMIT = 0.1;
const OVER_USUAL = 0.05;
/**
 * Where lines were even from the first, a lasting move of 5 points is told from 6 % on: makers of submersible motors ask for 5 % at most
 * (common practice). Of twenty runs, a day or more, half must show it: the voltage of an evening does not do it.
 */
const EVEN_LIMIT = 0.06;
const LASTING_RUNS = 20;
const DEADBAND = 0.01;
const RUNS = 5;
/** What is usual is learnt from the first runs, and never taken to be more than this. */
const USUAL_RUNS = 15;
const MOST_USUAL = 0.1;

export const legImbalance: Watch = {
  alarm: 'leg-imbalance',
  each: 'pump',
  on: ['cycle'],
  onDelayS: 0,
  offDelayS: 3600,
  look,
};

/** 100 x the largest deviation from the mean / the mean, as a share. */
export function unbalance(lines: readonly number[]): number {
  const mean = lines.reduce((sum, line) => sum + line, 0) / lines.length;
  return mean === 0 ? 0 : Math.max(...lines.map((line) => Math.abs(line - mean))) / mean;
}

function linesOf(cycle: Cycle): number[] | undefined {
  const { amps, amps2, amps3 } = cycle;
  return amps === undefined || amps2 === undefined || amps3 === undefined ? undefined : [amps, amps2, amps3];
}

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  const lines = scene.cycle && linesOf(scene.cycle);
  if (!scene.cycle || !lines || scene.cycle.readings < 3) return undefined;
  const seen = listOf(memo, 'first');
  if (seen.length < USUAL_RUNS) memo['first'] = [...seen, tidy(unbalance(lines), 4)];
  const last = freshCycles(scene, RUNS, (cycle) => linesOf(cycle) !== undefined && cycle.readings >= 3);
  if (last.length < RUNS) return undefined;
  const share = median(last.map((cycle) => unbalance(linesOf(cycle)!)))!;
  const usual = seen.length < USUAL_RUNS ? 0 : Math.min(MOST_USUAL, median(seen) ?? 0);
  const lasting = lastingShare(scene);
  if (
    seen.length >= USUAL_RUNS &&
    lasting !== undefined &&
    lasting > Math.max(EVEN_LIMIT, usual + OVER_USUAL)
  )
    return finding(lines, lasting, usual, Math.max(EVEN_LIMIT, usual + OVER_USUAL), last[0]!.startedMs);
  const limit = Math.max(LIMIT, usual + OVER_USUAL);
  if (share <= Math.min(limit, Math.max(EVEN_LIMIT, usual + OVER_USUAL)) - DEADBAND) return null;
  if (share <= limit) return undefined;
  return finding(lines, share, usual, limit, last[0]!.startedMs);
}

/** Median over the last twenty runs; undefined with fewer. */
function lastingShare(scene: Scene): number | undefined {
  const runs = freshCycles(
    scene,
    LASTING_RUNS,
    (cycle) => linesOf(cycle) !== undefined && cycle.readings >= 3,
  );
  return runs.length < LASTING_RUNS ? undefined : median(runs.map((cycle) => unbalance(linesOf(cycle)!)));
}

function finding(
  lines: readonly number[],
  share: number,
  usual: number,
  limit: number,
  sinceMs: number,
): Finding {
  return {
    sinceMs,
    why: `The three lines carry ${lines.map((amps) => sayAmps(amps)).join(', ')}: ${sayShare(share)} unbalance${usual > 0 ? `, where ${sayShare(usual)} was usual` : ''}.`,
    evidence: {
      unbalance: tidy(share, 3),
      limit: tidy(limit, 3),
      amps: tidy(lines[0]!),
      amps2: tidy(lines[1]!),
      amps3: tidy(lines[2]!),
    },
    causes: weigh({ 'supply-voltage': 0.4, 'failing-motor': 0.3, 'lost-leg': 0.2, 'clamp-off': 0.1 }),
  };
}
