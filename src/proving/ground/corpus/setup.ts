/**
 * A sound well with its card and its node, made from a few wishes: the ground on which all cases stand. The card says what its owner
 * knows, from everything to the well's name alone.
 */
import { kpaFromPsi } from '../../../../shared/units/pressure.ts';
import { lFromGal } from '../../../../shared/units/water.ts';
import type { Fixture } from '../../model/demand.ts';
import type { ControlPlan, PumpPlan, WellPlan } from '../../plant/params.ts';
import type { NodePlan } from '../case.ts';
import { people, weekdays, type Draw, type Share } from './habits.ts';
import { PUMPS, type PumpSize } from './pumps.ts';
import { OFFSET_H } from './times.ts';

export interface Setup {
  plan: WellPlan;
  card: Record<string, unknown>;
  node: NodePlan;
}

/** What its owner knows of the well. */
export type Knows = 'all' | 'no-tank' | 'no-switch' | 'name';

export interface Wish {
  name: string;
  seed: number;
  size?: PumpSize;
  cutInPsi?: number;
  cutOutPsi?: number;
  tankGal?: number;
  plainTank?: boolean;
  altitudeM?: number;
  utcOffsetH?: number;
  knows?: Knows;
  use?: 'house' | 'stock' | 'irrigation' | readonly string[];
  fixtures?: readonly Fixture[];
  share?: Share;
  draws?: readonly Draw[];
  node?: Partial<NodePlan>;
  /** Card fields beside those made here, or in their place. */
  card?: Record<string, unknown>;
}

/** Zones without summer time, by their offset. */
const ZONES: Record<number, string> = {
  [-10]: 'Pacific/Honolulu',
  [-7]: 'America/Phoenix',
  [-6]: 'America/Costa_Rica',
  [-5]: 'America/Jamaica',
  [0]: 'Africa/Accra',
  [2]: 'Africa/Johannesburg',
  [3]: 'Africa/Nairobi',
  [10]: 'Australia/Brisbane',
};
/** The 2 psi under cut-in that tanks are charged to (Water Systems Council, "Pressure Tanks"). */
const PRECHARGE_UNDER_PSI = 2;
const RELIEF_OVER_PSI = 15;
const SWITCH_JITTER_KPA = 1.2;

export const EVERY_5_S: NodePlan = { everyS: 5, packS: 30, clock: 'utc', fedFrom: 'other-circuit', also: [] };
export const EVERY_1_S: NodePlan = { ...EVERY_5_S, everyS: 1, packS: 10 };
export const EVERY_10_S: NodePlan = { ...EVERY_5_S, everyS: 10, packS: 60 };

/** A pressure switch and a tank, as most private wells have. */
export function setup(wish: Wish): Setup {
  const { cutInPsi = 40, cutOutPsi = 60 } = wish;
  const control: ControlPlan = {
    is: 'pressure-switch',
    cutInKpa: kpaFromPsi(cutInPsi),
    cutOutKpa: kpaFromPsi(cutOutPsi),
    jitterKpa: SWITCH_JITTER_KPA,
  };
  const card = cardOf(wish, {
    control: 'pressure-switch',
    switch: { cutIn: `${cutInPsi} psi`, cutOut: `${cutOutPsi} psi` },
  });
  return { plan: planOf(wish, control), card, node: { ...EVERY_5_S, ...wish.node } };
}

/** The well of a wish under a control; its owner's words for that control are `controlled`. */
export function controlledSetup(
  wish: Wish,
  control: ControlPlan,
  controlled: Record<string, unknown>,
): Setup {
  return {
    plan: planOf(wish, control),
    card: cardOf(wish, controlled),
    node: { ...EVERY_5_S, ...wish.node },
  };
}

function planOf(wish: Wish, control: ControlPlan): WellPlan {
  const { size = 'oneHp', cutInPsi = 40, cutOutPsi = 60, tankGal = 62, utcOffsetH = OFFSET_H } = wish;
  const { pump, staticLevelM, yieldLPerSPerM } = PUMPS[size];
  const inStore = control.is === 'float' || control.is === 'timer';
  return {
    name: wish.name,
    seed: wish.seed,
    utcOffsetH,
    altitudeM: wish.altitudeM ?? 300,
    pumps: { pumps: [pump], how: 'one' },
    hole: { staticLevelM, intakeM: staticLevelM + 18, yieldLPerSPerM, boreLPerM: 18 },
    ...(!inStore && {
      tank: {
        kind: wish.plainTank === true ? 'plain' : 'captive-air',
        volumeL: lFromGal(tankGal),
        prechargeKpa: wish.plainTank === true ? 0 : kpaFromPsi(cutInPsi - PRECHARGE_UNDER_PSI),
      },
    }),
    control,
    fixtures: wish.fixtures ?? people(4),
    share: wish.share ?? weekdays(wish.seed, utcOffsetH),
    ...(wish.draws && { draws: wish.draws }),
    ...(!inStore && { reliefKpa: kpaFromPsi(cutOutPsi + RELIEF_OVER_PSI) }),
    clamp: clampFor(pump),
    transducer: { noiseKpa: 0.9, stepKpa: 0.1, offsetKpa: 0 },
  };
}

function clampFor(pump: PumpPlan): WellPlan['clamp'] {
  return { noiseA: 0.012 + 0.001 * pump.fullFlowAmps, stepA: 0.01, gain: 1, maxA: 60 };
}

function cardOf(wish: Wish, controlled: Record<string, unknown>): Record<string, unknown> {
  const { size = 'oneHp', cutInPsi = 40, cutOutPsi = 60, tankGal = 62, knows = 'all' } = wish;
  const { utcOffsetH = OFFSET_H, altitudeM = 300 } = wish;
  const own = { well: wish.name, ...wish.card };
  if (knows === 'name') return own;
  const { switch: points, ...control } = controlled;
  const stored = control['control'] === 'float' || control['control'] === 'timer';
  return {
    well: wish.name,
    timeZone: ZONES[utcOffsetH] ?? 'UTC',
    altitude: `${altitudeM} m`,
    use: wish.use ?? 'house',
    ...control,
    pump: { ...PUMPS[size].plate, setDepth: `${Math.round(PUMPS[size].staticLevelM + 18)} m` },
    ...(points !== undefined && knows !== 'no-switch' && { switch: points }),
    ...(!stored && knows !== 'no-tank' && { tank: tankCard(wish, tankGal, cutInPsi) }),
    ...(!stored && knows === 'all' && { relief: `${cutOutPsi + RELIEF_OVER_PSI} psi` }),
    ...wish.card,
  };
}

function tankCard(wish: Wish, tankGal: number, cutInPsi: number): Record<string, unknown> {
  const volume = `${tankGal} gal`;
  return wish.plainTank === true
    ? { kind: 'plain', volume }
    : { kind: 'captive-air', volume, precharge: `${cutInPsi - PRECHARGE_UNDER_PSI} psi` };
}
