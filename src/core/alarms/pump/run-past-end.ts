/**
 * Nothing but current is measured, and it says that no water goes any more: the switch should have
 * opened.
 */
import { FORM_EVIDENCE } from '../../../../shared/alarms/form-evidence.ts';
import { HOUR_S } from '../../../../shared/units/duration.ts';
import type { Active } from '../evaluation.ts';
import { lastMinutes, ranThroughout, runningAmps } from '../scene-queries.ts';
import { hasOnlyShortRuns } from './run-too-long.ts';
import { roundTo } from '../round.ts';
import type { OpenRun, Scene } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * Without pressure: a pump against a closed system moves no water and draws less than at cut-out,
 * the least that it draws in a fill. 6 % under that, for so many minutes, is more than the supply
 * does and longer than a tap takes to be opened again.
 */
const PAST_END_RATIO = 0.94;
const PAST_END_MINUTES = 20;
/**
 * Such a house after an hour: no supply sags for that long just then, and a tap that is open makes
 * the pump draw more than at cut-out.
 */
const PAST_END_SHORT_RUNS_RATIO = 0.98;
const PAST_END_SHORT_RUNS_S = HOUR_S;

/** Undefined where the fills of this well are not learnt yet. */
export function pastEndFinding(scene: Scene, run: OpenRun): Active | undefined {
  const amps = scene.pump.baseline?.shape?.amps.filter((value) => value !== null) ?? [];
  const minutes = lastMinutes(scene, PAST_END_MINUTES);
  if (
    scene.pump.card.control !== 'pressure-switch' ||
    amps.length < 3 ||
    !minutes ||
    !ranThroughout(scene, minutes)
  )
    return undefined;
  const minAmps = Math.min(...amps);
  const now = minutes.map((minute) => runningAmps(minute.pumps[scene.pump.index]!));
  const ratio =
    run.ranS > PAST_END_SHORT_RUNS_S && hasOnlyShortRuns(scene) ? PAST_END_SHORT_RUNS_RATIO : PAST_END_RATIO;
  if (!now.every((spread) => spread && spread.high < ratio * minAmps)) return undefined;
  const drawn = now[now.length - 1]!.mean;
  return {
    is: 'active',
    sinceMs: run.startedMs,
    reason: 'run-past-normal-end',
    figures: { ranS: run.ranS, amps: drawn, cutOutA: minAmps },
    evidence: {
      ranS: roundTo(run.ranS, 0),
      amps: roundTo(drawn),
      leastAmps: roundTo(minAmps),
      ...FORM_EVIDENCE['past-cut-out'],
    },
    causes: weighCauses({
      'switch-contacts-stuck': 0.4,
      'switch-out-of-set': 0.15,
      'closed-valve': 0.15,
      'low-well': 0.15,
      'worn-pump': 0.15,
    }),
  };
}
