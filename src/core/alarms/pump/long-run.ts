/**
 * A run past anything this well needs. How long that is depends on what pressure says: held over
 * cut-out, minutes are enough, since the switch should have opened; held under cut-in and not
 * rising, the water goes somewhere; held between the two by what is drawn (a garden, a pool, a tap
 * left open: all one to the pressure) a run is healthy for hours, and only its length can be held
 * against it, by what this well does at that hour.
 */
import { FORM_EVIDENCE } from '../../../../shared/alarms/form-evidence.ts';
import { isAnnounced, type AnnouncedMemory } from '../announced.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import {
  KPA_PER_PSI,
  hasPressureCycle,
  highestCutOutKpa,
  lastMinute,
  lastMinutes,
  ranThroughout,
  usesPressure,
} from '../scene-queries.ts';
import { forgetAsked, type AskedMemory } from './meant-or-not.ts';
import { pastEndFinding } from './run-past-end.ts';
import { tooLongFinding } from './run-too-long.ts';
import { heldUnderCutInFinding, type DrawdownMemory } from './run-under-cut-in.ts';
import { withoutRiseFinding } from './run-without-rise.ts';
import { roundTo } from '../round.ts';
import { recordLongRun, type ClockMemory } from './same-clock-time.ts';
import type { OpenRun, Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * Over cut-out by more than the scatter of switch and transducer, for so many whole minutes with
 * the pump running.
 */
const MAX_OVER_CUT_OUT_KPA = 2 * KPA_PER_PSI;
const MIN_OVER_MINUTES = 3;

interface LongRunMemory extends AnnouncedMemory, DrawdownMemory, AskedMemory, ClockMemory {
  /**
   * When the last run began that was found too long, and the last one whose switch should have
   * opened.
   */
  toldMs?: number;
  pastMs?: number;
}

export const longRun: Watch<LongRunMemory> = {
  alarm: 'long-run',
  scope: 'pump',
  triggers: ['minute'],
  initialMemory: () => ({}),
  evaluate,
};

function evaluate(scene: Scene, memory: LongRunMemory): Evaluation {
  const { run } = scene.pump;
  if (!run) {
    forgetAsked(memory);
    return CLEAR;
  }
  // Asked at each minute of a run: it remembers until when something was announced.
  const announced = isAnnounced(scene, run, memory);
  recordLongRun(run, memory);
  const minute = lastMinute(scene);
  if (!minute) return cannotTell('too-few-readings');
  const kpa = usesPressure(scene.pump) ? minute.kpa : undefined;
  const found =
    (kpa
      ? (overCutOutFinding(scene, run) ??
        heldUnderCutInFinding(scene, run, memory) ??
        withoutRiseFinding(scene, run))
      : pastEndFinding(scene, run)) ?? (announced ? undefined : tooLongFinding(scene, run, minute, memory));
  // Contacts that did not open in this run stay under suspicion until it ends, though a tap that is
  // opened takes pressure back into the band.
  if (memory.pastMs === run.startedMs && !(found && isPastCutOut(found))) return cannotTell('pump-running');
  if (found) {
    if (isPastCutOut(found)) memory.pastMs = run.startedMs;
    memory.toldMs = run.startedMs;
    return found;
  }
  // A run that was told is one run until it ends, though pressure comes up for a while as taps are
  // shut.
  if (memory.toldMs === run.startedMs) return cannotTell('pump-running');
  return announced ? cannotTell('expected') : CLEAR;
}

function isPastCutOut(found: Active): boolean {
  return found.evidence['switch'] === FORM_EVIDENCE['past-cut-out'].switch;
}

function overCutOutFinding(scene: Scene, run: OpenRun): Active | undefined {
  const cutOut = highestCutOutKpa(scene);
  const minutes = lastMinutes(scene, MIN_OVER_MINUTES);
  if (cutOut === undefined || !minutes || !hasPressureCycle(scene.pump) || !ranThroughout(scene, minutes))
    return undefined;
  if (!minutes.every((minute) => minute.kpa && minute.kpa.low > cutOut + MAX_OVER_CUT_OUT_KPA))
    return undefined;
  const kpa = minutes[minutes.length - 1]!.kpa!.mean;
  return {
    is: 'active',
    sinceMs: run.startedMs,
    reason: 'run-over-cut-out',
    figures: { ranS: run.ranS, kpa, cutOutKpa: cutOut },
    evidence: {
      ranS: roundTo(run.ranS, 0),
      kpa: roundTo(kpa, 0),
      cutOutKpa: roundTo(cutOut, 0),
      ...FORM_EVIDENCE['past-cut-out'],
    },
    causes: weighCauses({ 'switch-contacts-stuck': 0.65, 'switch-out-of-set': 0.2, 'blocked-nipple': 0.15 }),
  };
}
