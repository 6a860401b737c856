/**
 * A run past anything this well needs. How long that is depends on what pressure says: held over cut-out, minutes are enough, since the switch should
 * have opened; held under cut-in and not rising, the water goes somewhere; held between the two by what is drawn (a garden, a pool, a tap
 * left open: all one to the pressure) a run is healthy for hours, and only its length can be held against it, by what this well does at that hour.
 */
import { FORM_EVIDENCE } from '../../shared/words/forms.ts';
import { isAnnounced } from './announced.ts';
import {
  PSI,
  hasPressureCycle,
  highestCutOut,
  lastMinute,
  lastMinutes,
  ranThrough,
  usesPressure,
} from './facts.ts';
import { pastItsEnd } from './run-past-end.ts';
import { tooLong } from './run-too-long.ts';
import { underCutIn } from './run-under.ts';
import { sayPressure, sayTime, tidy } from './say.ts';
import type { Finding, Memo, OpenRun, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

/** Over cut-out by more than the scatter of switch and transducer, for so many whole minutes with the pump running. */
const OVER_KPA = 2 * PSI;
const OVER_MINUTES = 3;
/** Contacts that stick now and then make one such run after another: that is one alarm. */
const OFF_DELAY_S = 2 * 3600;

export const longRun: Watch = {
  alarm: 'long-run',
  each: 'pump',
  on: ['minute'],
  onDelayS: 0,
  offDelayS: OFF_DELAY_S,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  const { run } = scene.pump;
  if (!run) return null;
  // Asked at each look of a run: it remembers until when something was announced.
  const announced = isAnnounced(scene, run, memo);
  const minute = lastMinute(scene);
  if (!minute) return undefined;
  const kpa = usesPressure(scene.pump) ? minute.kpa : undefined;
  const found =
    (kpa ? (overCutOut(scene, run) ?? underCutIn(scene, run, memo)) : pastItsEnd(scene, run)) ??
    (announced ? undefined : tooLong(scene, run, minute));
  // Contacts that did not open in this run stay under suspicion until it ends, though a tap that is opened takes pressure back into the band.
  if (memo['pastMs'] === run.startedMs && !isPastCutOut(found)) return undefined;
  if (isPastCutOut(found)) memo['pastMs'] = run.startedMs;
  if (found) memo['toldMs'] = run.startedMs;
  // A run that was told is one run until it ends, though pressure comes up for a while as taps are shut.
  return found ?? (memo['toldMs'] === run.startedMs ? undefined : found);
}

function isPastCutOut(found: Finding | null | undefined): boolean {
  return found?.evidence['switch'] === FORM_EVIDENCE['past-cut-out'].switch;
}

function overCutOut(scene: Scene, run: OpenRun): Finding | undefined {
  const cutOut = highestCutOut(scene);
  const minutes = lastMinutes(scene, OVER_MINUTES);
  if (cutOut === undefined || !minutes || !hasPressureCycle(scene.pump) || !ranThrough(scene, minutes))
    return undefined;
  if (!minutes.every((minute) => minute.kpa && minute.kpa.low > cutOut + OVER_KPA)) return undefined;
  const kpa = minutes[minutes.length - 1]!.kpa!.mean;
  return {
    sinceMs: run.startedMs,
    why: `The pump has run for ${sayTime(run.ranS)} and holds ${sayPressure(kpa)}, over the cut-out of ${sayPressure(cutOut)} at which its switch should open.`,
    evidence: {
      ranS: tidy(run.ranS, 0),
      kpa: tidy(kpa, 0),
      cutOutKpa: tidy(cutOut, 0),
      ...FORM_EVIDENCE['past-cut-out'],
    },
    causes: weigh({ 'switch-contacts-stuck': 0.65, 'switch-out-of-set': 0.2, 'blocked-nipple': 0.15 }),
  };
}
