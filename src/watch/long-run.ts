/**
 * A run past anything this well needs. How long that is depends on what pressure says: held over cut-out, minutes are enough, since the switch should
 * have opened; held under cut-in and not rising, the water goes somewhere; held between the two by what is drawn (a garden, a pool) a
 * run is healthy for hours, and only its length against this well's own longest can be held against it.
 */
import {
  PSI,
  cutInOf,
  hasPressureCycle,
  highestCutOut,
  lastMinute,
  lastMinutes,
  usesPressure,
  usualAmps,
} from './facts.ts';
import { sayPressure, sayTime, tidy } from './say.ts';
import type { Finding, MinuteScene, OpenRun, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

const H = 3600;
/** Over cut-out by more than the scatter of switch and transducer, for so many whole minutes with the pump running. */
const OVER_KPA = 2 * PSI;
const OVER_MINUTES = 3;
/** Under cut-in and not rising for so long: the pump does not keep up. A garden that is too large for the pump looks the same at first. */
const UNDER_KPA = 2 * PSI;
const UNDER_MINUTES = 15;
/** Just under it (by half a psi) it takes longer to be sure. */
const JUST_UNDER_KPA = 0.5 * PSI;
const JUST_UNDER_MINUTES = 28;
const RISING_KPA = 2 * PSI;
/** In the band with water drawn: a day's irrigation, a pool overnight. Argued, not measured; longer where this well did longer. */
const IN_BAND_S = { house: 16 * H, field: 30 * H };
const IN_BAND_LONGEST = 4;
/** Without pressure the run's length alone must tell. */
const NO_PRESSURE_S = 6 * H;
const NO_PRESSURE_LONGEST = 4;
/** A float or timer fills the same store each time: 2.5 of its longest fills, one hour over it at least; 12 h while none was learnt. */
const STORE_LONGEST = 2.5;
const STORE_OVER_S = H;
const STORE_UNKNOWN_S = 12 * H;

export const longRun: Watch = {
  alarm: 'long-run',
  each: 'pump',
  on: ['minute'],
  onDelayS: 0,
  offDelayS: 900,
  look,
};

function look(scene: Scene): Finding | null | undefined {
  const { run } = scene.pump;
  if (!run) return null;
  const minute = lastMinute(scene);
  if (!minute) return undefined;
  const kpa = usesPressure(scene.pump) ? minute.kpa : undefined;
  if (kpa) return overCutOut(scene, run) ?? underCutIn(scene, run) ?? tooLong(scene, run, minute);
  return tooLong(scene, run, minute);
}

function running(scene: Scene, minutes: readonly MinuteScene[]): boolean {
  return minutes.every((minute) => (minute.pumps[scene.pump.index]?.ranS ?? 0) > 50);
}

function overCutOut(scene: Scene, run: OpenRun): Finding | undefined {
  const cutOut = highestCutOut(scene);
  const minutes = lastMinutes(scene, OVER_MINUTES);
  if (cutOut === undefined || !minutes || !hasPressureCycle(scene.pump) || !running(scene, minutes))
    return undefined;
  if (!minutes.every((minute) => minute.kpa && minute.kpa.low > cutOut + OVER_KPA)) return undefined;
  const kpa = minutes[minutes.length - 1]!.kpa!.mean;
  return {
    sinceMs: run.startedMs,
    why: `The pump has run for ${sayTime(run.ranS)} and holds ${sayPressure(kpa)}, over the cut-out of ${sayPressure(cutOut)} at which its switch should open.`,
    evidence: { ranS: tidy(run.ranS, 0), kpa: tidy(kpa, 0), cutOutKpa: tidy(cutOut, 0) },
    causes: weigh({ 'switch-contacts-stuck': 0.65, 'switch-out-of-set': 0.2, 'blocked-nipple': 0.15 }),
  };
}

function underCutIn(scene: Scene, run: OpenRun): Finding | undefined {
  const cutIn = cutInOf(scene);
  if (cutIn === undefined) return undefined;
  const minutes =
    heldUnder(scene, UNDER_MINUTES, cutIn - UNDER_KPA) ??
    heldUnder(scene, JUST_UNDER_MINUTES, cutIn - JUST_UNDER_KPA);
  if (!minutes) return undefined;
  const first = minutes[0]!.kpa!.mean;
  const last = minutes[minutes.length - 1]!.kpa!.mean;
  if (last - first > RISING_KPA) return undefined;
  const freezing = (scene.well.minutes[scene.well.minutes.length - 1]?.temperatureC?.mean ?? 20) < 1;
  return {
    sinceMs: run.startedMs,
    why: `The pump has run for ${sayTime(run.ranS)} at ${sayPressure(last)}, under its cut-in of ${sayPressure(cutIn)}, and pressure does not rise: water goes out as fast as it comes.`,
    evidence: {
      ranS: tidy(run.ranS, 0),
      kpa: tidy(last, 0),
      cutInKpa: tidy(cutIn, 0),
      risenKpa: tidy(last - first, 1),
    },
    causes: weigh({
      'broken-pipe': freezing ? 0.5 : 0.35,
      'open-tap': 0.25,
      'low-well': 0.15,
      'drop-pipe-leak': 0.1,
      'worn-pump': 0.1,
    }),
  };
}

/** The last minutes, where the pump ran and pressure was under `kpa` through all of them. */
function heldUnder(scene: Scene, count: number, kpa: number): MinuteScene[] | undefined {
  const minutes = lastMinutes(scene, count);
  if (!minutes || !running(scene, minutes)) return undefined;
  return minutes.every((minute) => minute.kpa && minute.kpa.high < kpa) ? minutes : undefined;
}

/** How long a run of this well may be, s. */
function limitS(scene: Scene, withPressure: boolean): number {
  const longest = Math.max(scene.pump.baseline?.longestRunS ?? 0, scene.pump.pinned?.longestRunS ?? 0);
  const { uses } = scene.well.card;
  const field = uses.includes('irrigation') || uses.includes('stock');
  const more = scene.well.expected === undefined ? 1 : 2;
  if (!usesPressure(scene.pump)) {
    return (
      more * (longest === 0 ? STORE_UNKNOWN_S : Math.max(STORE_LONGEST * longest, longest + STORE_OVER_S))
    );
  }
  if (withPressure)
    return more * Math.max(field ? IN_BAND_S.field : IN_BAND_S.house, IN_BAND_LONGEST * longest);
  return more * Math.max(field ? IN_BAND_S.house : NO_PRESSURE_S, NO_PRESSURE_LONGEST * longest);
}

function tooLong(scene: Scene, run: OpenRun, minute: MinuteScene): Finding | null {
  const kpa = usesPressure(scene.pump) ? minute.kpa?.mean : undefined;
  const limit = limitS(scene, kpa !== undefined);
  if (run.ranS <= limit) return null;
  const longest = scene.pump.baseline?.longestRunS;
  const against = longest === undefined ? '' : `; its longest run when it was well was ${sayTime(longest)}`;
  const at = kpa === undefined ? '' : ` at ${sayPressure(kpa)}`;
  return {
    sinceMs: run.startedMs,
    why: `The pump has run for ${sayTime(run.ranS)} without stopping${at}${against}.`,
    evidence: {
      ranS: tidy(run.ranS, 0),
      limitS: tidy(limit, 0),
      ...(longest !== undefined && { longestRunS: longest }),
      ...(kpa !== undefined && { kpa: tidy(kpa, 0) }),
    },
    causes: weigh(
      isWeak(scene, run, kpa)
        ? { 'worn-pump': 0.45, 'low-well': 0.2, 'drop-pipe-leak': 0.1, 'pitless-leak': 0.1, leak: 0.1 }
        : usesPressure(scene.pump)
          ? {
              'open-tap': 0.3,
              leak: 0.2,
              'broken-pipe': 0.15,
              'worn-pump': 0.15,
              'low-well': 0.1,
              'switch-contacts-stuck': 0.1,
            }
          : { 'switch-contacts-stuck': 0.3, leak: 0.2, 'worn-pump': 0.2, 'low-well': 0.15, 'open-tap': 0.15 },
    ),
  };
}

/** Held in the upper half of the band with less current than usual: little water goes, so the pump is weak and no tap is open. */
function isWeak(scene: Scene, run: OpenRun, kpa: number | undefined): boolean {
  const cutIn = cutInOf(scene);
  const cutOut = highestCutOut(scene);
  const usual = usualAmps(scene);
  if (kpa === undefined || cutIn === undefined || cutOut === undefined || usual === undefined) return false;
  if (scene.pump.card.control !== 'pressure-switch') return false;
  return kpa > cutIn + (cutOut - cutIn) / 2 && run.amps !== undefined && run.amps < 0.97 * usual;
}
