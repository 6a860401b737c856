/**
 * A run past anything this well needs. How long that is depends on what pressure says: held over cut-out, minutes are enough, since the switch should
 * have opened; held under cut-in and not rising, the water goes somewhere; held between the two by what is drawn (a garden, a pool, a tap
 * left open: all one to the pressure) a run is healthy for hours, and only its length can be held against it, by what this well does at that hour.
 */
import { localHour, longestRunAtS } from '../baseline/habit.ts';
import type { Cause } from '../../shared/words/kinds.ts';
import { median } from '../baseline/robust.ts';
import { risen } from '../baseline/trend.ts';
import { isAnnounced } from './announced.ts';
import { companyOf, speaksForAll } from './company.ts';
import {
  PSI,
  cutInOf,
  hasPressureCycle,
  highestCutOut,
  lastMinute,
  lastMinutes,
  listOf,
  runningAmps,
  usesPressure,
  usualAmps,
} from './facts.ts';
import { sayAmps, sayPressure, sayTime, tidy } from './say.ts';
import type { Finding, Memo, MinuteScene, OpenRun, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

const H = 3600;
/** Over cut-out by more than the scatter of switch and transducer, for so many whole minutes with the pump running. */
const OVER_KPA = 2 * PSI;
const OVER_MINUTES = 3;
/** Under cut-in and not rising for so long: the pump does not keep up. A garden that is too large for the pump looks the same at first. */
const UNDER_KPA = 2 * PSI;
const DRIVE_UNDER_KPA = 12 * PSI;
const UNDER_MINUTES = 15;
/** Just under it (by half a psi) it takes longer to be sure. */
const JUST_UNDER_KPA = 0.5 * PSI;
const JUST_UNDER_MINUTES = 28;
const RISING_KPA = 2 * PSI;
/** Less than the supply makes of it (4 %) and a clamp errs. */
const LITTLE_SHARE = 0.93;
/** Where fields are watered: this little under cut-in is too much drawn at once, for as long as sprinklers are left in a place. Argued, not measured. */
const OVERDRAWN_KPA = 15 * PSI;
const OVERDRAWN_S = 6 * H;
/** Runs of which it is remembered how low they drew pressure, and how much lower one more may be. */
const DRAWN_RUNS = 6;
const OVERDRAWN_MORE_KPA = 6 * PSI;
/** Of its usual current: a drive at less serves less than a tap. */
const IDLE_DRIVE = 1;
/**
 * In the band with water drawn. A house: a pool or a cistern is filled for 12 h, from evening till morning, and two hours over; a tap left open in the evening
 * is told in the morning. A field: a set of sprinklers is left from one morning to the next, and six hours over. Argued, not measured.
 */
const IN_BAND_S = { house: 14 * H, field: 30 * H };
/**
 * A house whose runs of two weeks all ended within half an hour: four hours on end are eight times what it ever needed, and longer than
 * a lawn is watered in one go. A pool that nobody announced is told by it, and should be: it looks like a tap left open. Argued, not measured.
 */
const HABIT_DAYS = 12;
const SHORT_RUNS_S = H / 2;
const UNHEARD_OF_S = 4 * H;
/** Such a house draws no water through an hour of the night: those who leave a hose open do so by day. Argued, not measured. */
const NIGHT_ENDS_H = 5;
const NIGHT_S = H;
/** 2.5 of what this well did at least twice. Of a field that was seen to be watered, that is all it needs. */
const LONGEST = 2.5;
const WATERED_S = 2 * H;
/**
 * Without pressure: a pump against a closed system moves no water and draws less than at cut-out, the least that it draws in a fill. 6 % under
 * that, for so many minutes, is more than the supply does and longer than a tap takes to be opened again.
 */
const PAST_END = 0.94;
const PAST_END_MINUTES = 20;
/** Such a house after an hour: no supply sags for that long just then, and a tap that is open makes the pump draw more than at cut-out. */
const PAST_END_UNHEARD_OF = 0.98;
const PAST_END_UNHEARD_OF_S = H;
/** A float or timer fills the same store each time: 2.5 of its longest fills, one hour over it at least; a day while none was learnt. */
const STORE_OVER_S = H;
const STORE_UNKNOWN_S = 24 * H;
/** A store that was emptied takes longer than it ever did: while its level rises the fill is not over, for a day. */
const STORE_RISING_MINUTES = 30;

/** Contacts that stick now and then make one such run after another: that is one alarm. */
const OFF_DELAY_S = 2 * H;

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
  if (found) memo['toldMs'] = run.startedMs;
  // A run that was told is one run until it ends, though pressure comes up for a while as taps are shut.
  return found ?? (memo['toldMs'] === run.startedMs ? undefined : found);
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

function underCutIn(scene: Scene, run: OpenRun, memo: Memo): Finding | undefined {
  const cutIn = cutInOf(scene);
  if (cutIn === undefined) return undefined;
  // Of several that run together for one pressure, one speaks.
  if (!speaksForAll(scene) && companyOf(scene).some((other) => other.run)) return undefined;
  // A drive wakes a little under what it holds, and a sprinkler too many takes pressure there: only far under it is something open.
  const driven = scene.pump.card.control === 'variable-speed';
  const minutes =
    heldUnder(scene, UNDER_MINUTES, cutIn - (driven ? DRIVE_UNDER_KPA : UNDER_KPA)) ??
    (driven ? undefined : heldUnder(scene, JUST_UNDER_MINUTES, cutIn - JUST_UNDER_KPA));
  if (!minutes) return undefined;
  const last = minutes[minutes.length - 1]!.kpa!.mean;
  const up = risen(minutes.map((minute) => minute.kpa!.mean));
  if (up > RISING_KPA || isOverdrawn(scene, run, memo, last)) return undefined;
  const freezing = (scene.well.minutes[scene.well.minutes.length - 1]?.temperatureC?.mean ?? 20) < 1;
  const little = liftsLittle(scene, run);
  return {
    sinceMs: run.startedMs,
    why: `The pump has run for ${sayTime(run.ranS)} at ${sayPressure(last)}, under its cut-in of ${sayPressure(cutIn)}, and pressure does not rise: ${little ? `it draws ${sayAmps(run.amps ?? 0)}, less than ever at such a pressure, so little water comes` : 'water goes out as fast as it comes'}.`,
    evidence: {
      ranS: tidy(run.ranS, 0),
      kpa: tidy(last, 0),
      cutInKpa: tidy(cutIn, 0),
      risenKpa: tidy(up, 1),
    },
    causes: weigh({
      'broken-pipe': freezing ? 0.5 : little ? 0.1 : 0.35,
      'open-tap': little ? 0.05 : 0.25,
      'low-well': little ? 0.25 : 0.15,
      'closed-valve': little ? 0.25 : 0.03,
      'drop-pipe-leak': 0.1,
      'worn-pump': little ? 0.25 : 0.1,
      ...backwards(scene),
    }),
  };
}

/** A motor of three lines turns backwards from the day on which two were swapped, and lifts about half: rare but after work on it. */
function backwards(scene: Scene): Partial<Record<Cause, number>> {
  return scene.pump.card.phase === 3 ? { 'wrong-rotation': 0.1 } : {};
}

/** A field watered with a sprinkler too many: under cut-in for as long as that takes, or took before; a little, or as far as it did before. */
function isOverdrawn(scene: Scene, run: OpenRun, memo: Memo, kpa: number): boolean {
  const { uses } = scene.well.card;
  if (!uses.includes('irrigation') && !uses.includes('stock')) return false;
  // Pumps that take turns share what is watered: what one did the other may.
  const longest = Math.max(
    0,
    ...[scene.pump, ...companyOf(scene)].flatMap(({ baseline, pinned }) => [
      baseline?.longestRunS ?? 0,
      pinned?.longestRunS ?? 0,
    ]),
  );
  const cutIn = cutInOf(scene) ?? 0;
  const lowest = Math.min(cutIn - OVERDRAWN_KPA, beforeKpa(run, memo) - OVERDRAWN_MORE_KPA);
  // As long as it did before it needs nothing new, however low that is.
  if (run.ranS > longest && !(kpa > lowest && run.ranS < Math.max(OVERDRAWN_S, LONGEST * longest)))
    return false;
  noteDrawn(run, memo, kpa);
  return true;
}

/** How low pressure stood in the runs before this one that were a field's: the middle of them, where there were two. */
function beforeKpa(run: OpenRun, memo: Memo): number {
  const levels = listOf(memo, 'drawnKpa').slice(0, memo['drawnMs'] === run.startedMs ? -1 : undefined);
  return levels.length < 2 ? Infinity : median(levels)!;
}

function noteDrawn(run: OpenRun, memo: Memo, kpa: number): void {
  const levels = [...listOf(memo, 'drawnKpa')];
  const own = memo['drawnMs'] === run.startedMs ? levels.pop() : undefined;
  memo['drawnMs'] = run.startedMs;
  memo['drawnKpa'] = [...levels, tidy(Math.min(own ?? kpa, kpa), 0)].slice(-DRAWN_RUNS);
}

/** At low pressure a pump lifts more and draws more than at mid-band: clearly less current there is little water, whatever is open. */
function liftsLittle(scene: Scene, run: OpenRun): boolean {
  const usual = usualAmps(scene);
  if (scene.pump.card.control !== 'pressure-switch' || usual === undefined || run.amps === undefined)
    return false;
  return run.amps < LITTLE_SHARE * usual;
}

/** The last minutes, where the pump ran and pressure was under `kpa` through all of them. */
function heldUnder(scene: Scene, count: number, kpa: number): MinuteScene[] | undefined {
  const minutes = lastMinutes(scene, count);
  if (!minutes || !running(scene, minutes)) return undefined;
  return minutes.every((minute) => minute.kpa && minute.kpa.high < kpa) ? minutes : undefined;
}

/** Nothing but current is measured, and it says that no water goes: the switch should have opened. */
function pastItsEnd(scene: Scene, run: OpenRun): Finding | undefined {
  const amps = scene.pump.baseline?.shape?.amps.filter((value) => value !== null) ?? [];
  const minutes = lastMinutes(scene, PAST_END_MINUTES);
  if (
    scene.pump.card.control !== 'pressure-switch' ||
    amps.length < 3 ||
    !minutes ||
    !running(scene, minutes)
  )
    return undefined;
  const least = Math.min(...amps);
  const now = minutes.map((minute) => runningAmps(minute.pumps[scene.pump.index]!));
  const share = run.ranS > PAST_END_UNHEARD_OF_S && isUnheardOf(scene) ? PAST_END_UNHEARD_OF : PAST_END;
  if (!now.every((spread) => spread && spread.high < share * least)) return undefined;
  const drawn = now[now.length - 1]!.mean;
  return {
    sinceMs: run.startedMs,
    why: `The pump has run for ${sayTime(run.ranS)} and draws ${sayAmps(drawn)}, less than the ${sayAmps(least)} at which its switch used to open: it moves little or no water. Pressure is not measured here; a closed valve looks the same.`,
    evidence: { ranS: tidy(run.ranS, 0), amps: tidy(drawn), leastAmps: tidy(least) },
    causes: weigh({
      'switch-contacts-stuck': 0.4,
      'switch-out-of-set': 0.15,
      'closed-valve': 0.15,
      'low-well': 0.15,
      'worn-pump': 0.15,
    }),
  };
}

/** How long a run of this well may be, s. */
function limitS(scene: Scene, run: OpenRun): number {
  const { baseline, pinned, habit } = scene.pump;
  const longest = Math.max(baseline?.longestRunS ?? 0, pinned?.longestRunS ?? 0);
  if (!usesPressure(scene.pump)) {
    if (longest === 0 || storeRises(scene)) return STORE_UNKNOWN_S;
    return Math.max(LONGEST * longest, longest + STORE_OVER_S);
  }
  const { uses } = scene.well.card;
  if (uses.includes('irrigation') || uses.includes('stock')) {
    const known = longest > WATERED_S;
    return Math.max(known ? IN_BAND_S.house : IN_BAND_S.field, LONGEST * longest);
  }
  const { dayStartedMs: startMs, dayEndsMs: endMs } = scene.well;
  const atThisHourS = longestRunAtS(habit, localHour({ startMs, endMs }, run.startedMs));
  if (!isUnheardOf(scene)) return Math.max(IN_BAND_S.house, LONGEST * atThisHourS);
  return Math.min(nightLimitS(scene, run), Math.max(UNHEARD_OF_S, LONGEST * atThisHourS));
}

/** How long a run is that has gone on through an hour of the night that is over, s; no limit while none is. */
function nightLimitS({ well, atMs }: Scene, run: OpenRun): number {
  const fromMs = Math.max(run.startedMs, well.dayStartedMs);
  const untilMs = fromMs + 1000 * NIGHT_S;
  if (atMs < untilMs || untilMs > well.dayStartedMs + 1000 * H * NIGHT_ENDS_H) return Infinity;
  return (untilMs - run.startedMs) / 1000;
}

/** A house that in weeks has never drawn water for half an hour on end fills no pool in silence: somebody knows of it, or nobody does. */
function isUnheardOf({ pump, well }: Scene): boolean {
  if (well.card.uses.includes('irrigation') || well.card.uses.includes('stock')) return false;
  const { baseline, pinned, habit } = pump;
  const longest = Math.max(
    baseline?.longestRunS ?? 0,
    pinned?.longestRunS ?? 0,
    ...habit.days.map(([, , , , longestS]) => longestS),
  );
  return habit.days.length >= HABIT_DAYS && longest < SHORT_RUNS_S;
}

function storeRises(scene: Scene): boolean {
  const levels = lastMinutes(scene, STORE_RISING_MINUTES)?.map((minute) => minute.storeM?.mean);
  return levels !== undefined && levels.every((level) => level !== undefined) && risen(levels) > 0;
}

function tooLong(scene: Scene, run: OpenRun, minute: MinuteScene): Finding | null {
  const kpa = usesPressure(scene.pump) ? minute.kpa?.mean : undefined;
  const limit = limitS(scene, run);
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
      isIdleDrive(scene, run)
        ? { leak: 0.35, 'open-tap': 0.35, 'check-valve': 0.15, 'switch-out-of-set': 0.15 }
        : isWeak(scene, run, kpa)
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
            : {
                'switch-contacts-stuck': 0.3,
                leak: 0.2,
                'worn-pump': 0.2,
                'low-well': 0.15,
                'open-tap': 0.15,
              },
    ),
  };
}

/** A drive that turns over at the least it ever draws, and does not sleep: a little runs out all the time. */
function isIdleDrive(scene: Scene, run: OpenRun): boolean {
  const usual = usualAmps(scene);
  if (scene.pump.card.control !== 'variable-speed' || usual === undefined || run.amps === undefined)
    return false;
  return run.amps < IDLE_DRIVE * usual;
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
