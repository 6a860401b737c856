/**
 * A sound well with its card and its node, made from a few wishes: the ground on which all cases
 * stand. The card says what its owner knows, from everything to the well's name alone.
 */
import { kpaFromPsi } from '../../../../shared/units/pressure.ts';
import { lFromGal } from '../../../../shared/units/water.ts';
import type { Fixture } from '../../model/demand.ts';
import type { ControlPlan, PumpPlan, WellPlan } from '../../plant/params.ts';
import type { NodePlan } from '../case.ts';
import { people, weekdays, type Draw, type UseRatio } from './habits.ts';
import { PUMPS, type PumpSize } from './pumps.ts';
import { OFFSET_H } from './times.ts';

export interface Setup {
  plan: WellPlan;
  card: Record<string, unknown>;
  node: NodePlan;
}

/** What its owner knows of the well. */
export type CardKnowledge = 'all' | 'no-tank' | 'no-switch' | 'name';

export interface WellOptions {
  name: string;
  seed: number;
  size?: PumpSize;
  cutInPsi?: number;
  cutOutPsi?: number;
  tankGal?: number;
  plainTank?: boolean;
  altitudeM?: number;
  utcOffsetH?: number;
  cardKnowledge?: CardKnowledge;
  use?: 'house' | 'stock' | 'irrigation' | readonly string[];
  fixtures?: readonly Fixture[];
  useRatio?: UseRatio;
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

export const EVERY_5_S: NodePlan = {
  everyS: 5,
  packS: 30,
  clock: 'utc',
  fedFrom: 'other-circuit',
  extraChannels: [],
};
export const EVERY_1_S: NodePlan = { ...EVERY_5_S, everyS: 1, packS: 10 };
export const EVERY_10_S: NodePlan = { ...EVERY_5_S, everyS: 10, packS: 60 };

/** A pressure switch and a tank, as most private wells have. */
export function setup(options: WellOptions): Setup {
  const { cutInPsi = 40, cutOutPsi = 60 } = options;
  const control: ControlPlan = {
    is: 'pressure-switch',
    cutInKpa: kpaFromPsi(cutInPsi),
    cutOutKpa: kpaFromPsi(cutOutPsi),
    jitterKpa: SWITCH_JITTER_KPA,
  };
  const card = cardOf(options, {
    control: 'pressure-switch',
    switch: { cutIn: `${cutInPsi} psi`, cutOut: `${cutOutPsi} psi` },
  });
  return { plan: planOf(options, control), card, node: { ...EVERY_5_S, ...options.node } };
}

/** The well of a wish under a control; its owner's words for that control are `controlled`. */
export function controlledSetup(
  options: WellOptions,
  control: ControlPlan,
  controlled: Record<string, unknown>,
): Setup {
  return {
    plan: planOf(options, control),
    card: cardOf(options, controlled),
    node: { ...EVERY_5_S, ...options.node },
  };
}

function planOf(options: WellOptions, control: ControlPlan): WellPlan {
  const { size = 'oneHp', cutInPsi = 40, cutOutPsi = 60, tankGal = 62, utcOffsetH = OFFSET_H } = options;
  const { pump, staticLevelM, yieldLPerSPerM } = PUMPS[size];
  const inStore = control.is === 'float' || control.is === 'timer';
  return {
    name: options.name,
    seed: options.seed,
    utcOffsetH,
    altitudeM: options.altitudeM ?? 300,
    pumps: { pumps: [pump], how: 'one' },
    hole: { staticLevelM, intakeM: staticLevelM + 18, yieldLPerSPerM, boreLPerM: 18 },
    ...(!inStore && {
      tank: {
        kind: options.plainTank === true ? 'plain' : 'captive-air',
        volumeL: lFromGal(tankGal),
        prechargeKpa: options.plainTank === true ? 0 : kpaFromPsi(cutInPsi - PRECHARGE_UNDER_PSI),
      },
    }),
    control,
    fixtures: options.fixtures ?? people(4),
    useRatio: options.useRatio ?? weekdays(options.seed, utcOffsetH),
    ...(options.draws && { draws: options.draws }),
    ...(!inStore && { reliefKpa: kpaFromPsi(cutOutPsi + RELIEF_OVER_PSI) }),
    clamp: clampFor(pump),
    transducer: { noiseKpa: 0.9, stepKpa: 0.1, offsetKpa: 0 },
  };
}

function clampFor(pump: PumpPlan): WellPlan['clamp'] {
  return { noiseA: 0.012 + 0.001 * pump.fullFlowAmps, stepA: 0.01, gain: 1, maxA: 60 };
}

function cardOf(options: WellOptions, controlled: Record<string, unknown>): Record<string, unknown> {
  const { size = 'oneHp', cutInPsi = 40, cutOutPsi = 60, tankGal = 62, cardKnowledge = 'all' } = options;
  const { utcOffsetH = OFFSET_H, altitudeM = 300 } = options;
  const own = { well: options.name, ...options.card };
  if (cardKnowledge === 'name') return own;
  const { switch: points, ...control } = controlled;
  const stored = control['control'] === 'float' || control['control'] === 'timer';
  return {
    well: options.name,
    timeZone: ZONES[utcOffsetH] ?? 'UTC',
    altitude: `${altitudeM} m`,
    use: options.use ?? 'house',
    ...control,
    pump: { ...PUMPS[size].plate, setDepth: `${Math.round(PUMPS[size].staticLevelM + 18)} m` },
    ...(points !== undefined && cardKnowledge !== 'no-switch' && { switch: points }),
    ...(!stored && cardKnowledge !== 'no-tank' && { tank: tankCard(options, tankGal, cutInPsi) }),
    ...(!stored && cardKnowledge === 'all' && { relief: `${cutOutPsi + RELIEF_OVER_PSI} psi` }),
    ...options.card,
  };
}

function tankCard(options: WellOptions, tankGal: number, cutInPsi: number): Record<string, unknown> {
  const volume = `${tankGal} gal`;
  return options.plainTank === true
    ? { kind: 'plain', volume }
    : { kind: 'captive-air', volume, precharge: `${cutInPsi - PRECHARGE_UNDER_PSI} psi` };
}
