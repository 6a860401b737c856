/**
 * A pump that runs without water: it draws far less than it should, and pressure falls or does not
 * rise. Low current alone is not enough where pressure can be seen, since a nearly closed valve
 * lowers it too and then pressure stands high. Water also cools the motor, so this one is told
 * within a minute or two. What is usual: ./normal-load.ts; a pump that outruns its well:
 * ./overpumping.ts.
 */
import { MINUTE_MS } from '../../../../shared/units/duration.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import {
  KPA_PER_PSI,
  normalCutInKpa,
  normalCutOutKpa,
  lastMinute,
  lastMinutes,
  pumpInMinute,
  runningAmps,
  activeSince,
  forgetSince,
  usesPressure,
  type SinceMemory,
} from '../scene-queries.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { dryFinding } from './dry-finding.ts';
import { byDesign, isEndedByProtector, MAX_DRY_BY_DESIGN_MS } from './ended-by-protector.ts';
import { roundTo } from '../round.ts';
import type { MinutePump, MinuteScene, Scene, MinuteStats, Watch } from '../scene.ts';
import { dryLimit, lowPowerRatio, normalLoad, type NormalLoad } from './normal-load.ts';

/** From this long on a run at low current is told; a start that is slow to load is over by then. */
const MIN_DRY_MS = 30_000;
const MIN_RISE_KPA_PER_MIN = 1.5;
const MIN_READINGS = 3;
/**
 * So many readings of a minute say by their mean that it was low, though a start or the break
 * itself lies in it.
 */
const MIN_READINGS_FOR_MEAN = 10;
/** A run with this share of the usual is well again. */
const RECOVERED_RATIO = 0.88;
/**
 * A pump against a closed valve still stirs its water and draws 0.65 and more of its usual; one
 * without water does not (common practice, no source; a guided run against a closed valve would
 * show this pump's own). Near the top of the band only what is under
 * that is told here, after so many minutes without any rise.
 */
const DRY_AT_TOP_RATIO = 0.62;
const TOP_MINUTES = 2;
/** A single run in which this much of the current went is told; two, where less went. */
const BREAK_RATIO = 0.7;
const MIN_BREAK_RUNS = 2;
/**
 * Without any load a motor still draws a third of its usual current and more (common practice, no
 * source).
 */
const NO_CURRENT_RATIO = 0.25;
/**
 * Beside another load on the conductor less than this may be that load alone: an unloaded pump
 * draws half and more.
 */
const OTHER_LOAD_RATIO = 0.42;
/**
 * No switch closes higher than this over its cut-in: what begins there at an idle motor's current
 * is not the pump.
 */
const MAX_START_BAND_FRACTION = 0.4;
const IDLE_RATIO = 0.5;
/** A pump that lifted water at one current lifts it at nine tenths of that too. */
const LIFTING_RATIO = 0.9;
/**
 * A pump that fills a store lifts it to one height all along, and its current hardly moves within a
 * run. One that came down to this share of the usual in a run that began at the usual has lost its
 * water: a supply or a store that fills takes a few in a hundred (argued, not measured).
 */
const LOST_LOAD_RATIO = 0.85;
const LOADED_RATIO = 0.93;
/**
 * Water over the intake, m, from which a pump cannot be dry: makers ask for three to five (common
 * practice), and a level gauge may be off by some decimetres.
 */
const MAX_DRY_LEVEL_M = 1;
/** A run too short to judge by itself. */
const MIN_RUN_S = 5;

interface DryRunMemory extends SinceMemory {
  /** The last run in which pressure rose at low current: when it began, and that current, A. */
  liftedMs?: number;
  liftedAmps?: number;
  /** The last run into a store that drew as usual in a minute of it: when it began. */
  loadedMs?: number;
}

export const dryRun: Watch<DryRunMemory> = {
  alarm: 'dry-run',
  scope: 'pump',
  triggers: ['minute', 'cycle'],
  initialMemory: () => ({}),
  evaluate,
};

function evaluate(scene: Scene, memory: DryRunMemory): Evaluation {
  if (scene.pump.card.drive === 'solar' && !isWellLow(scene)) {
    delete memory.sinceMs;
    return isLevelMeasured(scene) ? CLEAR : cannotTell('follows-the-sun');
  }
  const usual = normalLoad(scene);
  if (!usual) return cannotTell('learning');
  if (scene.trigger === 'minute') return evaluateMinute(scene, usual, memory);
  const found = evaluateRun(scene, usual, memory);
  if (found.is !== 'active' || !scene.cycle || !isEndedByProtector(scene, scene.cycle)) return found;
  delete memory.sinceMs;
  return byDesign(scene, found);
}

/**
 * A solar pump draws little at dawn, at dusk and under each cloud, and lifts little then: only a
 * level at its intake says that it runs dry.
 */
function isWellLow({ well }: Scene): boolean {
  const level = well.minutes[well.minutes.length - 1]?.levelM;
  return level !== undefined && level.mean < MAX_DRY_LEVEL_M;
}

function isLevelMeasured({ well }: Scene): boolean {
  return well.minutes[well.minutes.length - 1]?.levelM !== undefined;
}

function evaluateMinute(scene: Scene, usual: NormalLoad, memory: DryRunMemory): Evaluation {
  const minute = lastMinute(scene);
  const pump = minute && pumpInMinute(scene, minute);
  const amps = pump && runningAmps(pump);
  if (!minute || !pump) return cannotTell('too-few-readings');
  if (!amps) return cannotTell(pump.heardS > 0 ? 'pump-off' : 'needs-current');
  if (amps.n < MIN_READINGS || pump.ranS < 20) return cannotTell('too-few-readings');
  const kpa = usesPressure(scene.pump) ? minute.kpa : undefined;
  const lostLoad = hasLostLoad(scene, memory, amps, usual);
  const limit = lostLoad ? LOST_LOAD_RATIO * usual.amps : dryLimit(scene, usual, kpa !== undefined);
  if (isNoCurrent(scene, amps.mean, usual) || isOtherLoad(scene, amps.mean, usual))
    return cannotTell('other-alarm-explains');
  if (kpa && amps.high < limit && scene.pump.run && isRising(scene)) recordLift(scene, memory, amps.mean);
  if (!isLow(scene, minute, amps, usual, limit))
    return hasRecovered(scene, amps, usual) ? forgetSince(memory) : cannotTell('near-limit');
  // Of a run that is over its whole tells, and not its last minute.
  if (!scene.pump.run) return cannotTell('not-this-trigger');
  if (kpa && isLightLoad(scene, memory, { amps: amps.mean, kpa, usual })) return cannotTell('light-load');
  const sinceMs = activeSince(memory, lowSinceMs(scene, minute, pump));
  if (minute.atMs - sinceMs < minDryMs(scene)) return cannotTell('not-long-enough');
  return dryFinding(scene, usual, {
    amps: amps.mean,
    kpa: kpa?.mean,
    sinceMs,
    ...((lostLoad || startedNormally(scene, usual)) &&
      scene.pump.run && { ranNormallyS: (sinceMs - scene.pump.run.startedMs) / 1000 }),
  });
}

/** A protector on the card has its time first. */
function minDryMs({ pump }: Scene): number {
  return pump.card.protectorRestartS === undefined ? MIN_DRY_MS : MAX_DRY_BY_DESIGN_MS + 1;
}

/** Pressure says that this little current lifts water, or holds what was lifted. */
function isLightLoad(
  scene: Scene,
  memory: DryRunMemory,
  { amps, kpa, usual }: { amps: number; kpa: MinuteStats; usual: NormalLoad },
): boolean {
  return (
    isRising(scene) ||
    liftedAtThisCurrent(scene, memory, amps, kpa) ||
    (isPressureHeld(scene, kpa) && !isDryAtTop(scene, usual))
  );
}

/** The run into a store began at the usual current, and draws clearly less now. */
function hasLostLoad(scene: Scene, memory: DryRunMemory, amps: MinuteStats, usual: NormalLoad): boolean {
  const { run, card } = scene.pump;
  if (!run || card.control !== 'float' || card.drive === 'solar' || !usual.learned) return false;
  if (amps.high > LOADED_RATIO * usual.amps) memory.loadedMs = run.startedMs;
  return memory.loadedMs === run.startedMs && amps.high < LOST_LOAD_RATIO * usual.amps;
}

/**
 * Less than any turning motor draws: a lost line or a clamp that came off, which have alarms of
 * their own; or the other load.
 */
function isNoCurrent(scene: Scene, amps: number, usual: NormalLoad): boolean {
  const shares = scene.pump.card.alsoOnClamp !== undefined;
  // Before the pump is known the other load looks like an idle motor.
  if (shares && !usual.learned) return true;
  return amps < (shares ? OTHER_LOAD_RATIO : NO_CURRENT_RATIO) * usual.amps;
}

/**
 * The run going on began where no switch would have started the pump, at less than an idle motor's
 * current.
 */
function isOtherLoad(scene: Scene, amps: number, usual: NormalLoad): boolean {
  const { run, card } = scene.pump;
  const cutIn = normalCutInKpa(scene);
  const cutOut = normalCutOutKpa(scene);
  if (card.control !== 'pressure-switch' || amps > IDLE_RATIO * usual.amps) return false;
  if (run?.cutInKpa === undefined || cutIn === undefined || cutOut === undefined) return false;
  return run.cutInKpa > cutIn + MAX_START_BAND_FRACTION * (cutOut - cutIn);
}

/**
 * Pressure rose through a minute of this run in which current was low: little water came, and not
 * none.
 */
function recordLift(scene: Scene, memory: DryRunMemory, amps: number): void {
  memory.liftedMs = scene.pump.run!.startedMs;
  memory.liftedAmps = roundTo(amps);
}

/**
 * A weak pump that levels off: what it lifted in this run at this current it holds. Such a run is
 * `cut-out-not-reached`.
 */
function liftedAtThisCurrent(scene: Scene, memory: DryRunMemory, amps: number, kpa: MinuteStats): boolean {
  const { run } = scene.pump;
  if (run?.cutInKpa === undefined || memory.liftedMs !== run.startedMs) return false;
  return amps > LIFTING_RATIO * (memory.liftedAmps ?? Infinity) && kpa.mean > run.cutInKpa + KPA_PER_PSI;
}

/**
 * Low through the minute, or by its mean and its end: the inrush of a start, or the current before
 * the break, may lie in it. A pump that goes off and on within the minute has a low mean too, of
 * rests that lasted a reading each: a dry one's motor turns on.
 */
function isLow(
  scene: Scene,
  minute: MinuteScene,
  amps: MinuteStats,
  usual: NormalLoad,
  limit: number,
): boolean {
  if (amps.high < limit) return true;
  if (amps.low < NO_CURRENT_RATIO * usual.amps) return false;
  const { run } = scene.pump;
  if (!run || amps.n < MIN_READINGS_FOR_MEAN || amps.mean >= limit) return false;
  return amps.last < limit || run.startedMs <= minute.atMs - MINUTE_MS;
}

/** Since the run began, or since the minute where it drew as usual before. */
function lowSinceMs(scene: Scene, minute: MinuteScene, pump: MinutePump): number {
  return Math.max(minute.atMs - pump.ranS * 1000, scene.pump.run?.startedMs ?? 0);
}

/** By its median so far the run drew what it should: it had water, and lost it. */
function startedNormally(scene: Scene, usual: NormalLoad): boolean {
  const amps = scene.pump.run?.amps;
  return usual.learned && amps !== undefined && amps > RECOVERED_RATIO * usual.amps;
}

function hasRecovered(scene: Scene, amps: MinuteStats, usual: NormalLoad): boolean {
  if (scene.pump.card.control === 'variable-speed') return true;
  return amps.low > (usual.learned ? RECOVERED_RATIO : 0.55) * usual.amps;
}

/**
 * Does pressure rise? From minute to minute, by mean and by robust high, so that the rise before a
 * break does not count for after it; in the first minute of a run by the median of three readings
 * over cut-in.
 */
function isRising(scene: Scene): boolean {
  const { run } = scene.pump;
  if (run?.riseKpaPerMin === undefined) {
    return (
      run?.cutInKpa !== undefined && run.highKpa !== undefined && run.highKpa - run.cutInKpa > KPA_PER_PSI
    );
  }
  const [before, now] = lastMinutes(scene, 2) ?? [];
  const byHigh = before?.kpa && now?.kpa ? now.kpa.high - before.kpa.high : run.riseKpaPerMin;
  return Math.min(run.riseKpaPerMin, byHigh) > MIN_RISE_KPA_PER_MIN;
}

/**
 * Low current with pressure near cut-out or over it is little flow, and not no water: a closed
 * valve, or a tank that is nearly full.
 */
function isPressureHeld(scene: Scene, kpa: MinuteStats): boolean {
  const cutIn = normalCutInKpa(scene);
  const cutOut = normalCutOutKpa(scene);
  if (scene.pump.card.control === 'variable-speed')
    return cutIn === undefined || kpa.mean > cutIn - 10 * KPA_PER_PSI;
  if (cutIn === undefined || cutOut === undefined) return false;
  if (scene.pump.card.control === 'constant-pressure-valve') return kpa.mean > cutIn - 2 * KPA_PER_PSI;
  return kpa.mean > cutIn + 0.6 * (cutOut - cutIn);
}

/**
 * Less current than any closed valve leaves, minute after minute, while a tank that nobody draws
 * from holds its pressure.
 */
function isDryAtTop(scene: Scene, usual: NormalLoad): boolean {
  if (scene.pump.card.control !== 'pressure-switch' || !usual.learned) return false;
  const minutes = lastMinutes(scene, TOP_MINUTES);
  return (
    minutes?.every((minute) => {
      const pump = pumpInMinute(scene, minute);
      const amps = pump && runningAmps(pump);
      return (
        amps !== undefined &&
        (pump?.ranS ?? 0) > 50 &&
        amps.n >= MIN_READINGS &&
        amps.high < DRY_AT_TOP_RATIO * usual.amps
      );
    }) ?? false
  );
}

/**
 * A run that is over: dry runs can be shorter than a minute where a protector or a low cut-off ends
 * them.
 */
function evaluateRun(scene: Scene, usual: NormalLoad, memory: DryRunMemory): Evaluation {
  const { cycle } = scene;
  if (!cycle || cycle.amps === undefined) return cannotTell('needs-current');
  if (cycle.readings < MIN_READINGS || cycle.ranS < MIN_RUN_S) return cannotTell('too-few-readings');
  // Of two runs in one the rest between them was taken for running, and looks like a fall of
  // current.
  if (cycle.flags.some((flag) => flag === 'failed-start' || flag === 'clipped' || flag === 'merged'))
    return cannotTell('run-unseen');
  if (isNoCurrent(scene, cycle.amps, usual)) return cannotTell('other-alarm-explains');
  const lostWater = lostWaterFinding(scene, cycle);
  if (lostWater) return lostWater(usual, memory);
  if (isFillRun(scene, cycle)) return forgetSince(memory);
  const withPressure =
    usesPressure(scene.pump) && cycle.cutInKpa !== undefined && cycle.cutOutKpa !== undefined;
  const powerRatio = withPressure ? lowPowerRatio(scene, cycle) : undefined;
  if (cycle.amps >= dryLimit(scene, usual, withPressure) && powerRatio === undefined) {
    if (cycle.amps < RECOVERED_RATIO * usual.amps && usual.learned) return cannotTell('near-limit');
    return forgetSince(memory);
  }
  if (!withPressure)
    return cycle.ranS < MIN_DRY_MS / 1000
      ? cannotTell('not-long-enough')
      : dryFinding(scene, usual, { amps: cycle.amps, kpa: undefined, sinceMs: cycle.startedMs });
  if ((cycle.cutOutKpa ?? 0) - (cycle.cutInKpa ?? 0) > KPA_PER_PSI) return cannotTell('light-load');
  if (scene.pump.card.control === 'variable-speed') return cannotTell('not-this-trigger');
  const sinceMs = activeSince(memory, cycle.startedMs);
  return dryFinding(scene, usual, {
    amps: cycle.amps,
    kpa: cycle.cutOutKpa,
    sinceMs,
    ...(powerRatio !== undefined && { powerRatio }),
  });
}

/**
 * From the lower half of the band to its cut-out: whatever the current, such a run lifted water. A
 * worn pump draws little and fills slowly.
 */
function isFillRun(scene: Scene, cycle: Cycle): boolean {
  if (scene.pump.card.control !== 'pressure-switch' || !usesPressure(scene.pump)) return false;
  const cutIn = normalCutInKpa(scene);
  const cutOut = normalCutOutKpa(scene);
  if (cutIn === undefined || cutOut === undefined || cycle.cutInKpa === undefined) return false;
  return cycle.cutInKpa < (cutIn + cutOut) / 2 && reachedCutOut(scene, cycle);
}

/** A run that ended at its cut-out was a fill, whatever its last readings were. */
function reachedCutOut(scene: Scene, { cutOutKpa }: Cycle): boolean {
  const cutOut = normalCutOutKpa(scene);
  return cutOut !== undefined && cutOutKpa !== undefined && cutOutKpa > cutOut - 3 * KPA_PER_PSI;
}

/**
 * A run that had water and lost it before it ended; where something else shares the clamp, that may
 * have gone off instead.
 */
function lostWaterFinding(
  scene: Scene,
  cycle: Cycle,
): ((usual: NormalLoad, memory: SinceMemory) => Active) | undefined {
  const { loadLoss } = cycle;
  const { control, alsoOnClamp } = scene.pump.card;
  if (!loadLoss || alsoOnClamp !== undefined || control === 'variable-speed') return undefined;
  if (control === 'constant-pressure-valve' || reachedCutOut(scene, cycle)) return undefined;
  const others = scene.pump.cycles.filter((one) => one.loadLoss !== undefined).length;
  if (loadLoss.ratio < NO_CURRENT_RATIO || (loadLoss.ratio > BREAK_RATIO && others < MIN_BREAK_RUNS))
    return undefined;
  return (usual, memory) =>
    dryFinding(scene, usual, {
      amps: loadLoss.ratio * (cycle.amps ?? usual.amps),
      kpa: usesPressure(scene.pump) ? cycle.cutOutKpa : undefined,
      sinceMs: activeSince(memory, cycle.startedMs + loadLoss.atS * 1000),
      ranNormallyS: loadLoss.atS,
    });
}
