/**
 * The tank: its air against the switch, and its size against the time of a fill. The trade sets the air 2 psi under cut-in (Water Systems
 * Council, "Pressure Tanks", 2007). By Boyle's law and the pump's rated flow a fill has a time; what is many times off it cannot be this tank and this pump.
 */
import { tankDrawdownL, tankOf } from '../hydraulics/tank.ts';
import { quantile } from '../baseline/robust.ts';
import { FIRST_RUNS, firstAmps, firstCutIn, firstCutOut, firstRuns } from './check-facts.ts';
import { hasPressureCycle, PSI } from './facts.ts';
import type { Check } from './first-check.ts';
import { sayLitres, sayPressure, sayTime, tidy } from './say.ts';
import type { Scene } from './scene.ts';
import { weigh } from './weigh.ts';

/** More than 10 psi under cut-in wastes the tank; a reading of tyre gauge and switch may put it 1 psi over. */
const FAR_UNDER_KPA = 10 * PSI;
const OVER_KPA = PSI;
/** Delivery into the tank over the rated flow: deep water and friction take half of it, a shallow well gives half again. */
const SLOW = 0.3;
const QUICK = 1.7;
/** Beyond this no such pump has filled this tank; the slow way only where its motor works as it should. */
const MUCH_SLOW = 0.15;
const MUCH_QUICK = 3;
const WORKS_SHARE = 0.6;
/** Fills that take this long are those of a tank that holds its air, only a smaller one; shorter ones are the tank's own trouble (./tank-air-lost.ts). */
const SOUND_FILL_S = 30;

export function checkPrecharge(scene: Scene): Check | undefined {
  const { tank, switch: points } = scene.well.card;
  if (tank?.kind === 'plain' || !hasPressureCycle(scene.pump) || scene.pump.index > 0) return undefined;
  const air = tank?.prechargeKpa;
  const seen = firstCutIn(scene);
  const cutIn = seen ?? points.cutInKpa;
  if (air === undefined || cutIn === undefined) return { what: 'precharge', state: 'not-yet' };
  const over = air - cutIn;
  const contradicts = seen !== undefined && over > 2 * OVER_KPA && air > (points.cutInKpa ?? 0);
  return {
    what: 'precharge',
    state: over <= OVER_KPA && over >= -FAR_UNDER_KPA ? 'agrees' : 'differs',
    card: [{ value: air, is: 'pressure' }],
    measured: [{ value: tidy(cutIn, 1), is: 'pressure' }],
    ...(contradicts && {
      impossible: {
        why: `The card says that the tank's air is at ${sayPressure(air)}, over the ${sayPressure(cutIn)} at which the pump starts: then the tank would be empty before each start. The card is wrong, or the tank was filled with too much air.`,
        evidence: { prechargeKpa: tidy(air, 0), cutInKpa: tidy(cutIn, 0) },
        causes: weigh({ 'bad-card': 0.65, 'tank-overcharged': 0.35 }),
      },
    }),
  };
}

export function checkTankFill(scene: Scene): Check | undefined {
  // Behind a valve its bypass fills the tank, however much the pump could.
  const { control } = scene.pump.card;
  if (control !== 'pressure-switch' || scene.pump.index > 0 || scene.well.card.pumps.length > 1)
    return undefined;
  const filled = fillOfCard(scene);
  if (!filled) return { what: 'tank-fill', state: 'not-yet' };
  const { drawdownL, ratedLPerS, fillS } = filled;
  const share = drawdownL / fillS / ratedLPerS;
  const impossible = fillImpossible(scene, filled, share);
  return {
    what: 'tank-fill',
    state: share <= QUICK && share >= SLOW ? 'agrees' : 'differs',
    card: [{ value: tidy(drawdownL / ratedLPerS, 0), is: 'duration' }],
    measured: [{ value: tidy(fillS, 0), is: 'duration' }],
    ...(impossible && { impossible }),
  };
}

interface Filled {
  drawdownL: number;
  ratedLPerS: number;
  /** The quickest quarter of the runs: fills with little drawn meanwhile, s. */
  fillS: number;
}

function fillOfCard(scene: Scene): Filled | undefined {
  const { card } = scene.well;
  const { ratedLPerS } = scene.pump.card;
  const tank = tankOf(card.tank, card.altitudeM);
  const cutInKpa = firstCutIn(scene);
  const cutOutKpa = firstCutOut(scene);
  const runs = firstRuns(scene).map((run) => run.ranS);
  const fillS =
    scene.pump.pinned?.ranLowS?.median ?? (runs.length < FIRST_RUNS ? undefined : quantile(runs, 0.25));
  if (
    !tank ||
    ratedLPerS === undefined ||
    cutInKpa === undefined ||
    cutOutKpa === undefined ||
    fillS === undefined
  )
    return undefined;
  if (cutOutKpa - cutInKpa < PSI || fillS <= 0) return undefined;
  return { drawdownL: tankDrawdownL(tank, { cutInKpa, cutOutKpa }), ratedLPerS, fillS };
}

function fillImpossible(
  scene: Scene,
  { drawdownL, ratedLPerS, fillS }: Filled,
  share: number,
): Check['impossible'] {
  const amps = firstAmps(scene);
  const { maxAmps } = scene.pump.card;
  const works = amps !== undefined && maxAmps !== undefined && amps > WORKS_SHARE * maxAmps;
  const tooQuick = share > MUCH_QUICK && fillS >= SOUND_FILL_S;
  const tooSlow = share < MUCH_SLOW && works;
  if (!tooQuick && !tooSlow) return undefined;
  const takes = `Fills take ${sayTime(fillS)}; the tank on the card holds ${sayLitres(drawdownL)} between the switch points, and the pump on it needs about ${sayTime(drawdownL / ratedLPerS)} for that`;
  return {
    why:
      share > 1
        ? `${takes}: the tank is smaller than the card says, or has lost its air.`
        : `${takes}: tank or rated flow on the card are wrong.`,
    evidence: { fillS: tidy(fillS, 0), drawdownL: tidy(drawdownL, 1), share: tidy(share) },
    causes:
      share > 1
        ? weigh({ 'bad-card': 0.55, 'tank-air-lost': 0.3, 'bladder-burst': 0.15 })
        : weigh({ 'bad-card': 0.85, 'worn-pump': 0.15 }),
  };
}
