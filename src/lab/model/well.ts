/**
 * One simulated well: pump, tank, switch and demand stepped second by second, read by a clamp and a
 * transducer with their noise. A story changes its parts over time; the truth beside the readings
 * says what really happened.
 */
import { HOUR_MS, MINUTE_MS } from '../../../shared/units/duration.ts';
import { demandMinute, demandStep, newDemand, type Demand, type Fixture } from './demand.ts';
import { followLevel, pumpAmps, pumpFlow, type PumpParams, type PumpState } from './pump.ts';
import { seeded, type Random } from './random.ts';
import { newTank, tankGaugeKpa, tankStep, type TankState } from './tank.ts';

export interface WellParams {
  name: string;
  seed: number;
  /** Local time is this far ahead of UTC; only habits follow it. */
  utcOffsetH: number;
  atmosphereKpa: number;
  pump: PumpParams;
  tank: { volumeL: number; prechargeKpa: number };
  switch: { cutInKpa: number; cutOutKpa: number };
  fixtures: readonly Fixture[];
  schedule?: ConditionSchedule;
}

/** What changes at a moment. Shares are 0 where all is well. */
export interface Condition {
  /** Share of the tank's air that is gone. */
  airLost: number;
  /** Share of head and flow that the impellers have lost. */
  worn: number;
  /** The switch's contacts are welded: they don't open. */
  stuck: boolean;
  /** A leak behind the tank, L/s at 350 kPa. */
  leakLPerS: number;
}

export type ConditionSchedule = (tMs: number) => Partial<Condition>;

export interface Sample {
  tMs: number;
  amps: number;
  kpa: number;
  /** Truth, not read by anybody but the scoreboard. */
  running: boolean;
  flowLPerS: number;
}

export interface SimulatedWell {
  params: WellParams;
  random: Random;
  tank: TankState;
  pump: PumpState;
  demand: Demand;
  tMs: number;
  running: boolean;
  /** Seconds since the pump started, for the inrush. */
  onS: number;
  voltRatio: number;
  dayUseRatio: number;
  condition: Condition;
  /** Litres drawn and lifted so far. */
  drawnL: number;
  liftedL: number;
}

const HEALTHY: Condition = { airLost: 0, worn: 0, stuck: false, leakLPerS: 0 };
const CLAMP_NOISE_A = 0.012;
const TRANSDUCER_NOISE_KPA = 1;
/** A switch does not act at quite the same pressure each time. */
const SWITCH_JITTER_KPA = 1.2;
const INRUSH_FACTOR = 3.4;

export function newSimulatedWell(params: WellParams, fromMs: number): SimulatedWell {
  const startKpa = (params.switch.cutInKpa + params.switch.cutOutKpa) / 2;
  return {
    params,
    random: seeded(params.seed),
    tank: newTank(params.tank.volumeL, params.tank.prechargeKpa, params.atmosphereKpa, startKpa),
    pump: { wellDrawdownM: 0 },
    demand: newDemand(params.fixtures),
    tMs: fromMs,
    running: false,
    onS: 0,
    voltRatio: 1,
    dayUseRatio: 1,
    condition: HEALTHY,
    drawnL: 0,
    liftedL: 0,
  };
}

function stepMinute(well: SimulatedWell): void {
  const { params, random } = well;
  const hour = Math.floor(well.tMs / HOUR_MS + params.utcOffsetH + 240) % 24;
  if (hour === 3 && Math.floor(well.tMs / MINUTE_MS) % 60 === 0)
    well.dayUseRatio = 0.75 + 0.5 * random.next();
  demandMinute(well.demand, hour, well.dayUseRatio, random);
  // The supply wanders slowly within about one per cent of its nominal voltage.
  well.voltRatio += 0.02 * (1 - well.voltRatio) + 0.0012 * random.normal();
  const was = well.condition.airLost;
  well.condition = { ...HEALTHY, ...params.schedule?.(well.tMs) };
  if (well.condition.airLost !== was) {
    well.tank.airKpaL =
      params.tank.volumeL * (params.tank.prechargeKpa + params.atmosphereKpa) * (1 - well.condition.airLost);
    well.tank.airL = Math.min(well.tank.airL, well.tank.volumeL);
  }
}

function stepSecond(well: SimulatedWell): number {
  const { params, condition, random } = well;
  const kpa = tankGaugeKpa(well.tank, params.atmosphereKpa);
  const jitter = SWITCH_JITTER_KPA * random.normal();
  if (!well.running && kpa < params.switch.cutInKpa + jitter) {
    well.running = true;
    well.onS = 0;
  } else if (well.running && !condition.stuck && kpa > params.switch.cutOutKpa + jitter) well.running = false;
  const flowLPerS = well.running ? pumpFlow(params.pump, well.pump, kpa, condition.worn) : 0;
  followLevel(params.pump, well.pump, flowLPerS, 1);
  const leakL = condition.leakLPerS * Math.sqrt(Math.max(0, kpa) / 350);
  const wantedL = demandStep(well.demand, 1) + leakL;
  const shortL = tankStep(well.tank, flowLPerS - wantedL, 1);
  well.drawnL += wantedL - shortL;
  well.liftedL += flowLPerS;
  well.onS++;
  return flowLPerS;
}

function readSensors(well: SimulatedWell, flowLPerS: number): Sample {
  const { params, random } = well;
  const inrush = well.onS <= 1 ? INRUSH_FACTOR : 1;
  const amps = well.running ? pumpAmps(params.pump, flowLPerS, well.voltRatio) * inrush : 0;
  const kpa = tankGaugeKpa(well.tank, params.atmosphereKpa) + TRANSDUCER_NOISE_KPA * random.normal();
  return {
    tMs: well.tMs,
    amps: Math.max(0, Math.round((amps + CLAMP_NOISE_A * random.normal()) * 100) / 100),
    kpa: Math.round(kpa * 10) / 10,
    running: well.running,
    flowLPerS,
  };
}

/** Runs the well on until `untilMs` (left out) and gives a sample each `everyS` whole seconds. */
export function simulate(
  well: SimulatedWell,
  untilMs: number,
  everyS: number,
  onSample: (sample: Sample) => void,
): void {
  const everyMs = everyS * 1000;
  while (well.tMs < untilMs) {
    if (well.tMs % MINUTE_MS === 0) stepMinute(well);
    const flowLPerS = stepSecond(well);
    if (well.tMs % everyMs === 0) onSample(readSensors(well, flowLPerS));
    well.tMs += 1000;
  }
}
