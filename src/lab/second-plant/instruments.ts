/**
 * A clamp and a transducer as they are bought: noise, a smallest step, an offset that drifts with
 * the years, a meter that rounds. Typical values are common practice without a source.
 */
import { DAY_MS } from '../../../shared/units/duration.ts';
import { velocityKpa } from './pipe.ts';
import { ringKpa } from './ring.ts';
import type { Second } from './state.ts';
import { lineAmps } from './unit.ts';
import { asksForWater } from './control.ts';

/** A drive draws a little while its motor rests. */
const DRIVE_IDLE_A = 0.15;
const SLOW_MS = 10_000;
const FULL_SCALE_KPA = 1034;
const STORE_NOISE_M = 0.002;
const LEVEL_NOISE_M = 0.01;
const VOLT_NOISE = 0.0015;
/** Inside diameter at the tee. */
export const TEE_M = 0.027;
const YEAR_MS = 365.25 * DAY_MS;

/** Adds this step's current to the open window and closes it where a mean ends. */
export function integrateAmps(second: Second, dtS: number): void {
  const { plan, tMs, units, condition } = second;
  const closes = tMs % (1000 * plan.meanS) === 0;
  const idleA = plan.control.is === 'variable-speed' ? DRIVE_IDLE_A : 0;
  for (const unit of units) {
    if (unit.amps > 0 || idleA > 0) {
      const amps = lineAmps(unit, condition.lineRatios, condition.legLost);
      for (let line = 0; line < amps.length; line++)
        unit.windowAs[line]! += Math.max(amps[line]!, condition.supplyOn ? idleA : 0) * dtS;
    }
    if (!closes) continue;
    for (let line = 0; line < unit.windowAs.length; line++) {
      unit.meanA[line] = unit.windowAs[line]! / plan.meanS;
      unit.windowAs[line] = 0;
    }
  }
}

/** What the clamp would show of a line without its noise. */
export function shownAmps({ plan: { clamp }, condition }: Second, amps: number): number {
  return Math.min(clamp.maxA, amps * clamp.gain * condition.clampRatio);
}

/** What the transducer would show without its noise and ringing. */
export function shownKpa({ plan: { transducer }, condition, kpa, tMs, recorder }: Second): number {
  const firstMs = recorder.days[0]?.startMs ?? recorder.day.startMs;
  const driftKpa = (transducer.driftKpaAYear * (tMs - firstMs)) / YEAR_MS;
  return kpa + transducer.offsetKpa + driftKpa + condition.transducerOffsetKpa;
}

function rounded(value: number, step: number): number {
  return Math.round(value / step) * step;
}

/** As a plant's sample names them. */
const KPA_FAULTS = { good: undefined, stuck: undefined, low: 1, high: 2 } as const;

function setFault(sample: Second['sample'], fault: 1 | 2 | undefined): void {
  if (fault === undefined) delete sample.kpaFault;
  else sample.kpaFault = fault;
}

export function readInstruments(second: Second): Second['sample'] {
  const { plan, noise, units, sample } = second;
  sample.tMs = second.tMs;
  for (let pump = 0; pump < units.length; pump++) {
    const { meanA } = units[pump]!;
    for (let line = 0; line < meanA.length; line++) {
      const noisy = shownAmps(second, meanA[line]!) + plan.clamp.noiseA * noise.normal();
      sample.amps[pump]![line] = rounded(Math.abs(noisy) + plan.clamp.idleA, plan.clamp.stepA);
    }
  }
  readPressure(second);
  if (plan.metersVolts === true) readVolts(second);
  if (second.tMs % SLOW_MS === 0) readSlowly(second);
  sample.calls = asksForWater(second);
  return sample;
}

/** Of the pump’s own circuit, as in the first plant: behind an open breaker it is dead. */
function readVolts(second: Second): void {
  const { plan, noise, condition, sample } = second;
  const isLive = condition.supplyOn && condition.breakerClosed;
  const volts = plan.pumps.pumps[0]!.volts * second.supplyRatio * condition.voltRatio;
  for (let line = 0; line < sample.volts.length; line++) {
    const ratio = 1 + VOLT_NOISE * noise.normal();
    sample.volts[line] = isLive ? volts * condition.lineRatios[line]! * ratio : 0;
  }
}

/** Depths and air move slowly, and no node reads them each second. */
function readSlowly(second: Second): void {
  const { plan, noise, condition, sample, aquifer } = second;
  if ('store' in plan.control)
    sample.storeM = Math.max(0, second.storeM + condition.levelOffsetM + STORE_NOISE_M * noise.normal());
  const overM = plan.aquifer.intakeM - plan.aquifer.staticLevelM - condition.levelFallM - aquifer.casingFallM;
  sample.levelM = Math.max(0, overM + LEVEL_NOISE_M * noise.normal());
  sample.temperatureC = second.houseC + 0.1 * noise.normal();
}

function readPressure(second: Second): void {
  const { plan, noise, condition, sample, tMs, ring, inLPerS } = second;
  const fault = KPA_FAULTS[condition.transducer];
  if (fault !== sample.kpaFault) setFault(sample, fault);
  if (condition.transducer === 'stuck') {
    second.stuckKpa ??= rounded(shownKpa(second), plan.transducer.stepKpa);
    sample.kpa = second.stuckKpa;
    return;
  }
  const truly = shownKpa(second) + ringKpa(ring, tMs) - velocityKpa(inLPerS, TEE_M);
  const noisy = truly + plan.transducer.noiseKpa * noise.normal();
  sample.kpa = Math.min(FULL_SCALE_KPA, Math.max(0, rounded(noisy, plan.transducer.stepKpa)));
}
