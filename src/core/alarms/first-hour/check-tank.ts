/**
 * The tank: its air against the switch, and its size against the time of a fill. The trade sets the
 * air 2 psi under cut-in (Water Systems Council, "Pressure Tanks", 2007). By Boyle's law and the
 * pump's rated flow a fill has a time; what is many times off it cannot be this tank and this pump.
 */
import { tankDrawdownL, tankOf } from '../../hydraulics/tank.ts';
import { quantile } from '../../baseline/robust.ts';
import { MIN_FIRST_RUNS, firstAmps, firstCutIn, firstCutOut, firstRuns } from './first-run-values.ts';
import { hasPressureCycle, KPA_PER_PSI } from '../scene-queries.ts';
import type { Check } from './first-checks.ts';
import { roundTo } from '../round.ts';
import type { Scene } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * More than 10 psi under cut-in wastes the tank; a reading of tyre gauge and switch may put it 1
 * psi over.
 */
const MAX_UNDER_CUT_IN_KPA = 10 * KPA_PER_PSI;
const MAX_OVER_CUT_IN_KPA = KPA_PER_PSI;
/**
 * Delivery into the tank over the rated flow: deep water and friction take half of it, a shallow
 * well gives half again.
 */
const MIN_FILL_RATE_RATIO = 0.3;
const MAX_FILL_RATE_RATIO = 1.7;
/**
 * Beyond this no such pump has filled this tank; the slow way only where its motor works as it
 * should.
 */
const IMPOSSIBLE_SLOW_RATIO = 0.15;
const IMPOSSIBLE_FAST_RATIO = 3;
const MIN_WORKING_RATIO = 0.6;
/**
 * Fills that take this long are those of a tank that holds its air, only a smaller one; shorter
 * ones are the tank's own trouble (../water/tank-air-lost.ts).
 */
const MIN_SOUND_FILL_S = 30;

export function checkPrecharge(scene: Scene): Check | undefined {
  const { tank, switch: points } = scene.well.card;
  if (tank?.kind === 'plain' || !hasPressureCycle(scene.pump) || scene.pump.index > 0) return undefined;
  const prechargeKpa = tank?.prechargeKpa;
  const measuredCutIn = firstCutIn(scene);
  const cutIn = measuredCutIn ?? points.cutInKpa;
  if (prechargeKpa === undefined || cutIn === undefined) return { what: 'precharge', state: 'not-yet' };
  const airKpa = scene.well.water.prechargeKpa;
  // Air that the fills have shown to be lost is no agreement, whatever the card says of it.
  if (airKpa !== undefined && airKpa - cutIn < -MAX_UNDER_CUT_IN_KPA)
    return {
      what: 'precharge',
      state: 'differs',
      card: [{ value: prechargeKpa, dimension: 'pressure' }],
      measured: [{ value: roundTo(Math.max(0, airKpa), 1), dimension: 'pressure' }],
    };
  const over = prechargeKpa - cutIn;
  const contradicts =
    measuredCutIn !== undefined && over > 2 * MAX_OVER_CUT_IN_KPA && prechargeKpa > (points.cutInKpa ?? 0);
  return {
    what: 'precharge',
    state: over <= MAX_OVER_CUT_IN_KPA && over >= -MAX_UNDER_CUT_IN_KPA ? 'agrees' : 'differs',
    card: [{ value: prechargeKpa, dimension: 'pressure' }],
    measured: [{ value: roundTo(cutIn, 1), dimension: 'pressure' }],
    ...(contradicts && {
      impossible: {
        reason: 'precharge-over-cut-in',
        figures: { prechargeKpa, cutInKpa: cutIn },
        evidence: { prechargeKpa: roundTo(prechargeKpa, 0), cutInKpa: roundTo(cutIn, 0) },
        causes: weighCauses({ 'bad-card': 0.65, 'tank-overcharged': 0.35 }),
      },
    }),
  };
}

export function checkTankFill(scene: Scene): Check | undefined {
  // Behind a valve its bypass fills the tank, however much the pump could.
  const { control } = scene.pump.card;
  if (control !== 'pressure-switch' || scene.pump.index > 0 || scene.well.card.pumps.length > 1)
    return undefined;
  const filled = cardFillOf(scene);
  if (!filled) return { what: 'tank-fill', state: 'not-yet' };
  const { drawdownL, ratedLPerS, fillS } = filled;
  const ratio = drawdownL / fillS / ratedLPerS;
  const impossible = impossibleFill(scene, filled, ratio);
  return {
    what: 'tank-fill',
    state: ratio <= MAX_FILL_RATE_RATIO && ratio >= MIN_FILL_RATE_RATIO ? 'agrees' : 'differs',
    card: [{ value: roundTo(drawdownL / ratedLPerS, 0), dimension: 'duration' }],
    measured: [{ value: roundTo(fillS, 0), dimension: 'duration' }],
    ...(impossible && { impossible }),
  };
}

interface CardFill {
  drawdownL: number;
  ratedLPerS: number;
  /** The quickest quarter of the runs: fills with little drawn meanwhile, s. */
  fillS: number;
}

function cardFillOf(scene: Scene): CardFill | undefined {
  const { card } = scene.well;
  const { ratedLPerS } = scene.pump.card;
  const tank = tankOf(card.tank, card.altitudeM);
  const cutInKpa = firstCutIn(scene);
  const cutOutKpa = firstCutOut(scene);
  const runs = firstRuns(scene).map((run) => run.ranS);
  const fillS =
    scene.pump.pinned?.ranLowS?.median ?? (runs.length < MIN_FIRST_RUNS ? undefined : quantile(runs, 0.25));
  if (
    !tank ||
    ratedLPerS === undefined ||
    cutInKpa === undefined ||
    cutOutKpa === undefined ||
    fillS === undefined
  )
    return undefined;
  if (cutOutKpa - cutInKpa < KPA_PER_PSI || fillS <= 0) return undefined;
  return { drawdownL: tankDrawdownL(tank, { cutInKpa, cutOutKpa }), ratedLPerS, fillS };
}

function impossibleFill(
  scene: Scene,
  { drawdownL, ratedLPerS, fillS }: CardFill,
  ratio: number,
): Check['impossible'] {
  const amps = firstAmps(scene);
  const { maxAmps } = scene.pump.card;
  const works = amps !== undefined && maxAmps !== undefined && amps > MIN_WORKING_RATIO * maxAmps;
  const tooQuick = ratio > IMPOSSIBLE_FAST_RATIO && fillS >= MIN_SOUND_FILL_S;
  const tooSlow = ratio < IMPOSSIBLE_SLOW_RATIO && works;
  if (!tooQuick && !tooSlow) return undefined;
  return {
    reason: ratio > 1 ? 'fill-too-short-for-card' : 'fill-too-long-for-card',
    figures: { fillS, drawdownL, expectedS: drawdownL / ratedLPerS },
    evidence: { fillS: roundTo(fillS, 0), drawdownL: roundTo(drawdownL, 1), ratio: roundTo(ratio) },
    causes:
      ratio > 1
        ? weighCauses({ 'bad-card': 0.55, 'tank-air-lost': 0.3, 'bladder-burst': 0.15 })
        : weighCauses({ 'bad-card': 0.85, 'worn-pump': 0.15 }),
  };
}
