/**
 * The demo's farm, invented: Alder Bench, four wells, each with a story. The house is healthy; the
 * bunkhouse's tank loses its air; the contacts of the north trough's switch weld; the pump of the
 * south trough wears.
 */
import { DAY_MS, HOUR_MS } from '../../shared/units/duration.ts';
import { HOUSEHOLD, STOCK } from './model/demand.ts';
import type { PumpParams } from './model/pump.ts';
import type { ConditionSchedule, WellParams } from './model/well.ts';

/** A well of the farm: how it is simulated, and its card as the farmer wrote it. */
export interface DemoWell {
  params: WellParams;
  card: Record<string, unknown>;
}

const PSI_KPA = 6.894757293168;
/** 2,600 ft: US Standard Atmosphere 1976. */
const ATMOSPHERE_KPA = 92.16;

const SMALL: PumpParams = {
  shutOffHeadM: 92,
  runOutLPerS: 0.92,
  staticLevelM: 22,
  yieldLPerSPerM: 0.16,
  frictionM: 6,
  idleFlowAmps: 5.2,
  fullFlowAmps: 8.3,
};
const LARGE: PumpParams = {
  shutOffHeadM: 118,
  runOutLPerS: 1.15,
  staticLevelM: 31,
  yieldLPerSPerM: 0.2,
  frictionM: 5,
  idleFlowAmps: 6.6,
  fullFlowAmps: 10.4,
};

interface DemoWellPlan {
  name: string;
  seed: number;
  pump: PumpParams;
  motor: string;
  maxAmps: string;
  tankGal: number;
  use: 'house' | 'stock';
  setDepth: string;
  schedule?: ConditionSchedule;
}

function demoWell(plan: DemoWellPlan): DemoWell {
  const psi = (value: number): number => value * PSI_KPA;
  return {
    params: {
      name: plan.name,
      seed: plan.seed,
      utcOffsetH: -7,
      atmosphereKpa: ATMOSPHERE_KPA,
      pump: plan.pump,
      tank: { volumeL: plan.tankGal * 3.785411784, prechargeKpa: psi(38) },
      switch: { cutInKpa: psi(40), cutOutKpa: psi(60) },
      fixtures: plan.use === 'house' ? HOUSEHOLD : STOCK,
      ...(plan.schedule && { schedule: plan.schedule }),
    },
    card: {
      well: plan.name,
      site: 'alder-bench',
      timeZone: 'America/Boise',
      altitude: '2600 ft',
      use: plan.use,
      control: 'pressure-switch',
      pump: {
        kind: 'submersible',
        motor: plan.motor,
        volts: '230 V',
        phase: 1,
        maxAmps: plan.maxAmps,
        setDepth: plan.setDepth,
        installed: '2019-05-14',
      },
      switch: { cutIn: '40 psi', cutOut: '60 psi' },
      tank: { kind: 'captive-air', volume: `${plan.tankGal} gal`, precharge: '38 psi' },
      relief: '75 psi',
    },
  };
}

/** The farm as it stands at `nowMs`, its troubles grown over the days before. */
export function demoWells(nowMs: number): DemoWell[] {
  const since = (tMs: number, daysAgo: number): number =>
    Math.max(0, (tMs - (nowMs - daysAgo * DAY_MS)) / DAY_MS);
  return [
    demoWell({
      name: 'house',
      seed: 41,
      pump: SMALL,
      motor: '3/4 hp',
      maxAmps: '8.6 A',
      tankGal: 62,
      use: 'house',
      setDepth: '160 ft',
    }),
    demoWell({
      name: 'bunkhouse',
      seed: 42,
      pump: SMALL,
      motor: '3/4 hp',
      maxAmps: '8.6 A',
      tankGal: 44,
      use: 'house',
      setDepth: '155 ft',
      schedule: (tMs) => ({ airLost: Math.min(0.85, since(tMs, 24) * 0.045) }),
    }),
    demoWell({
      name: 'north-trough',
      seed: 43,
      pump: LARGE,
      motor: '1-1/2 hp',
      maxAmps: '11.5 A',
      tankGal: 86,
      use: 'stock',
      setDepth: '210 ft',
      schedule: (tMs) => ({ stuck: tMs >= nowMs - 3 * HOUR_MS }),
    }),
    demoWell({
      name: 'south-trough',
      seed: 44,
      pump: LARGE,
      motor: '1-1/2 hp',
      maxAmps: '11.5 A',
      tankGal: 86,
      use: 'stock',
      setDepth: '225 ft',
      schedule: (tMs) => ({ worn: Math.min(0.2, since(tMs, 30) * 0.0072) }),
    }),
  ];
}
