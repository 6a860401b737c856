/**
 * What a pump draws when it lifts water, and how little says that it lifts none: by what was
 * learnt; else by its first runs that raised pressure; else by the motor's maximum of the card;
 * else by the published table of its size.
 */
import { HOUR_S } from '../../../../shared/units/duration.ts';
import { median, quantile } from '../../baseline/robust.ts';
import { fullLoadAmps } from '../../domain/motor-tables.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { recentCycles, isCompleteRun, KPA_PER_PSI, normalAmpsOf } from '../scene-queries.ts';
import type { Scene } from '../scene.ts';

export interface NormalLoad {
  amps: number;
  /** Learnt from this pump at work, and not from a plate or a table. */
  learned: boolean;
}

/**
 * Share of the usual current under which a motor is unloaded: with pressure to confirm it, and by
 * itself. Common practice, no source. Current stops following the load under half of it (US DOE,
 * fact sheet on motor load, from memory), and small single-phase motors idle at 0.6 to 0.85 of it:
 * there power tells, where it is measured.
 */
const LOW_RATIO = 0.8;
const LOW_RATIO_NO_PRESSURE = 0.74;
/**
 * A drive lowers current as demand falls, so low current alone says nothing there. With pressure
 * lost it runs at full speed and should draw its highest: under this share of that it lifts no
 * water, since a motor without load draws about half (common practice, no source).
 */
const LOW_RATIO_DRIVE = 0.65;
const HIGHEST_RANK = 0.9;
/** A loaded motor at full speed draws 0.7 of its maximum and more (common practice, no source). */
const LOADED_RATIO = 0.7;
/**
 * Of the motor's maximum, where nothing was learnt yet: an unloaded single-phase motor may still
 * draw half.
 */
const LOW_RATIO_OF_MAX = 0.5;
/**
 * Of what a weak pump drew while it still lifted. Without water it draws clearly less than even
 * that, and never more than this share of what it drew when sound.
 */
const WEAK_RATIO = 0.88;
const LOW_RATIO_WEAK = 0.62;
/**
 * Before a baseline: so many runs that raised pressure by half of the usual 20 psi have shown what
 * pumping takes.
 */
const MIN_RUNS = 3;
const MIN_RAISE_KPA = 10 * KPA_PER_PSI;

export function normalLoad(scene: Scene): NormalLoad | undefined {
  const known = normalAmpsOf(scene) ?? firstRunsAmps(scene);
  if (known !== undefined) return { amps: known, learned: true };
  const { maxAmps, motorW, volts, phase } = scene.pump.card;
  const maximumAmps =
    maxAmps ??
    (motorW !== undefined && volts !== undefined && phase !== undefined
      ? fullLoadAmps({ motorW, volts, phase })
      : undefined);
  return maximumAmps === undefined ? undefined : { amps: maximumAmps, learned: false };
}

/**
 * Share of the usual power under which a motor is unloaded. What is left is iron, friction and
 * stirring: a third to a half (common practice, no source).
 */
const LOW_POWER_RATIO = 0.6;

/**
 * The power of a run against that of the fills before it; undefined where it is not that low, or
 * not known.
 */
export function lowPowerRatio(scene: Scene, cycle: Cycle): number | undefined {
  const watts = meanWatts(cycle);
  const fills = recentCycles(scene, 10, (one) => one !== cycle && isFill(one)).flatMap(
    (one) => meanWatts(one) ?? [],
  );
  if (watts === undefined || fills.length < MIN_RUNS) return undefined;
  const ratio = watts / median(fills)!;
  return ratio < LOW_POWER_RATIO ? ratio : undefined;
}

function meanWatts({ energyWh, ranS }: Cycle): number | undefined {
  return energyWh === undefined ? undefined : (energyWh * HOUR_S) / ranS;
}

function firstRunsAmps(scene: Scene): number | undefined {
  if (scene.pump.card.control !== 'pressure-switch') return undefined;
  const fills = recentCycles(scene, 10, isFill);
  return fills.length < MIN_RUNS ? undefined : median(fills.map((cycle) => cycle.amps!));
}

/**
 * What the drive draws when all is wanted: the highest of its last runs but a few, or, since few
 * houses ever want all that a pump gives, this much of the motor's maximum.
 */
function driveAmps(scene: Scene, usual: NormalLoad): number {
  const loadedAmps = LOADED_RATIO * (scene.pump.card.maxAmps ?? 0);
  const drawn = scene.pump.cycles.flatMap((cycle) => (cycle.amps === undefined ? [] : [cycle.amps]));
  return Math.max(loadedAmps, usual.amps, quantile(drawn, HIGHEST_RANK) ?? 0);
}

/** Under this current the pump lifts no water, A. */
export function dryLimit(scene: Scene, usual: NormalLoad, withPressure: boolean): number {
  const driven = scene.pump.card.control === 'variable-speed';
  if (driven && !withPressure) return 0;
  if (!usual.learned) return LOW_RATIO_OF_MAX * usual.amps;
  if (driven) return LOW_RATIO_DRIVE * driveAmps(scene, usual);
  const limit = (withPressure ? LOW_RATIO : LOW_RATIO_NO_PRESSURE) * usual.amps;
  if (!withPressure && scene.pump.card.control !== 'float') return limit;
  return Math.min(limit, Math.max(LOW_RATIO_WEAK * usual.amps, WEAK_RATIO * liftingAmps(scene)));
}

/**
 * What its last fills drew, which did raise pressure to their end or were ended by a full store, A:
 * a worn pump lifts water at less than it used to.
 */
function liftingAmps(scene: Scene): number {
  const { control } = scene.pump.card;
  if (control !== 'pressure-switch' && control !== 'float') return Infinity;
  const isWhole = control === 'float' ? isStoreFill : isFill;
  const fills = recentCycles(scene, MIN_RUNS, (cycle) => isWhole(cycle) && cycle.loadLoss === undefined);
  return fills.length === 0 ? Infinity : Math.max(...fills.map((cycle) => cycle.amps!));
}

function isStoreFill(cycle: Cycle): boolean {
  return isCompleteRun(cycle) && cycle.amps !== undefined;
}

function isFill(cycle: Cycle): boolean {
  return (
    isCompleteRun(cycle) &&
    cycle.amps !== undefined &&
    (cycle.cutOutKpa ?? 0) - (cycle.cutInKpa ?? 0) > MIN_RAISE_KPA
  );
}
