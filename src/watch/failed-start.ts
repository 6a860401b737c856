/**
 * The motor tried and did not run: current as of a start, then nothing, perhaps again and again. One such try alone is not told,
 * since the next may succeed; two within the hour are, and one is when water is still called for and none comes.
 */
import type { Cycle } from '../cycles/cycle.ts';
import { isFresh, lastMinute, lowestCutIn, PSI, usesPressure, usualAmps } from './facts.ts';
import { sayAmps, sayTime, tidy } from './say.ts';
import type { Finding, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

const WITHIN_MS = 3_600_000;
const TRIES = 2;
/** A run this short at this many times the usual current is a motor that did not come up to speed. Starting draws six times and more. */
const SHORT_S = 20;
const HEAVY = 1.8;

export const failedStart: Watch = {
  alarm: 'failed-start',
  each: 'pump',
  on: ['cycle', 'minute'],
  onDelayS: 0,
  offDelayS: 3600,
  look,
};

function look(scene: Scene): Finding | null | undefined {
  const usual = usualAmps(scene) ?? scene.pump.card.maxAmps;
  const { cycles, run } = scene.pump;
  const last = cycles[cycles.length - 1];
  if (!last || !isFresh(scene, last.startedMs)) return undefined;
  if (!failed(last, usual)) return null;
  if (
    run &&
    run.ranS > SHORT_S &&
    (run.amps === undefined || usual === undefined || run.amps < HEAVY * usual)
  )
    return null;
  const tries = lastTries(scene, usual);
  const enough = tries.length >= TRIES || (scene.why === 'minute' && stillCalled(scene));
  if (!enough) return undefined;
  return finding(scene, tries, usual);
}

function failed(cycle: Cycle, usual: number | undefined): boolean {
  if (cycle.flags.includes('failed-start')) return true;
  return (
    usual !== undefined && cycle.amps !== undefined && cycle.ranS < SHORT_S && cycle.amps > HEAVY * usual
  );
}

/** Failed tries in a row, within the hour before the last one. */
function lastTries(scene: Scene, usual: number | undefined): Cycle[] {
  const { cycles } = scene.pump;
  const found: Cycle[] = [];
  const latestMs = cycles[cycles.length - 1]?.startedMs ?? 0;
  for (let at = cycles.length - 1; at >= 0; at--) {
    const cycle = cycles[at]!;
    if (!failed(cycle, usual) || latestMs - cycle.startedMs > WITHIN_MS || !isFresh(scene, cycle.startedMs))
      break;
    found.push(cycle);
  }
  return found.reverse();
}

function stillCalled(scene: Scene): boolean {
  const minute = lastMinute(scene);
  const pump = minute?.pumps[scene.pump.index];
  if (!minute || !pump || pump.ranS > 0 || pump.heardS < 40) return false;
  if (pump.calls === true) return true;
  const cutIn = lowestCutIn(scene);
  return (
    usesPressure(scene.pump) &&
    cutIn !== undefined &&
    minute.kpa !== undefined &&
    minute.kpa.high < cutIn - PSI
  );
}

function finding(scene: Scene, tries: readonly Cycle[], usual: number | undefined): Finding {
  const first = tries[0]!;
  const last = tries[tries.length - 1]!;
  const peak = Math.max(...tries.map((cycle) => Math.max(cycle.startAmps ?? 0, cycle.amps ?? 0)));
  const many =
    tries.length === 1
      ? 'The motor tried to start and did not run'
      : `The motor tried to start ${tries.length} times and did not run`;
  const drew = peak > 0 ? `: it drew up to ${sayAmps(peak)} for ${sayTime(last.ranS)}` : '';
  const against = usual === undefined || peak === 0 ? '' : `, against ${sayAmps(usual)} when it runs`;
  return {
    sinceMs: first.startedMs,
    why: `${many}${drew}${against}.`,
    evidence: {
      tries: tries.length,
      ranS: tidy(last.ranS, 1),
      ...(peak > 0 && { peakAmps: tidy(peak, 1) }),
      ...(usual !== undefined && { normalAmps: tidy(usual) }),
    },
    causes: weigh({
      'stuck-rotor': 0.35,
      'failing-capacitor': scene.pump.card.phase === 3 ? 0.02 : 0.35,
      'failing-motor': 0.12,
      'overload-tripping': 0.1,
      'lost-leg': scene.pump.card.phase === 3 ? 0.3 : 0,
      'supply-voltage': 0.06,
    }),
  };
}
