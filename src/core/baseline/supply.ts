/**
 * What the supply's voltage does to this motor's current, learnt from its own runs. A loaded motor
 * draws more when voltage falls, a lightly loaded one less, so neither the size nor the sign can be
 * put in from a table. Learnt from one run to the next (change of current on change of voltage,
 * both as logarithms), so that neither a slow fault nor a step of the motor is taken for the
 * supply: a step is one pair among many. The slope is shrunk towards nothing until the voltage has
 * moved enough to tell (ridge regression; Hoerl & Kennard 1970).
 */
import type { Cycle } from '../cycles/cycle.ts';
import { median } from './robust.ts';

export interface SupplyEffect {
  /** Voltages of the first runs, until there are enough for `refVolts`. */
  firstVolts: number[];
  /** What currents are brought to, V. */
  refVolts?: number;
  /** Sums over pairs of following runs: of dV², of dV x dA, of the squares of dA (logarithms). */
  vv: number;
  va: number;
  aa: number;
  pairs: number;
  /** Voltage and current of the last run. */
  volts?: number;
  amps?: number;
}

const REFERENCE_RUNS = 10;
/** Older pairs fade: about three hundred count. */
const PAIR_DECAY = 0.997;
/**
 * Before anything is learnt: slopes within +-0.7 are likely, as met in induction motors of this
 * size (common practice, no source).
 */
const PRIOR_SLOPE = 0.7;
/**
 * Currents of two following runs differ by chance by this share, until their own scatter is known.
 */
const PAIR_SPREAD = 0.01;
const MAX_SLOPE = 2;
/**
 * A pair in which current moved more than this is a fault or another pressure, and no answer to
 * voltage.
 */
const MAX_AMPS_CHANGE = 0.06;

export function newSupplyEffect(): SupplyEffect {
  return { firstVolts: [], vv: 0, va: 0, aa: 0, pairs: 0 };
}

/** Change of ln(amps) for one of ln(volts). */
export function supplySlope(supply: SupplyEffect): number {
  const slope = supply.va / (supply.vv + pairSpread(supply) ** 2 / PRIOR_SLOPE ** 2);
  return Math.max(-MAX_SLOPE, Math.min(MAX_SLOPE, slope));
}

/** How far that slope may be off (one standard error). */
export function slopeUncertainty(supply: SupplyEffect): number {
  const spread = pairSpread(supply);
  return spread / Math.sqrt(supply.vv + spread ** 2 / PRIOR_SLOPE ** 2);
}

function pairSpread({ pairs, aa, va, vv }: SupplyEffect): number {
  if (pairs < 10) return PAIR_SPREAD;
  const left = vv > 0 ? aa - (va * va) / vv : aa;
  // `aa` fades as the others do: its weight is what a geometric sum of `pairs` terms has.
  const weight = (1 - PAIR_DECAY ** pairs) / (1 - PAIR_DECAY);
  return Math.max(0.002, Math.sqrt(Math.max(0, left) / weight));
}

/** Learns from one whole run. Runs without a measured voltage teach nothing. */
export function learnSupply(supply: SupplyEffect, cycle: Cycle): void {
  const { volts, amps } = cycle;
  if (volts === undefined || amps === undefined || volts <= 0 || amps <= 0 || cycle.readings < 3) return;
  if (supply.refVolts === undefined) {
    supply.firstVolts.push(volts);
    if (supply.firstVolts.length >= REFERENCE_RUNS) {
      supply.refVolts = median(supply.firstVolts)!;
      supply.firstVolts = [];
    }
  }
  if (supply.volts !== undefined && supply.amps !== undefined) {
    const dV = Math.log(volts / supply.volts);
    const dA = Math.log(amps / supply.amps);
    if (Math.abs(dA) <= MAX_AMPS_CHANGE + Math.abs(dV)) {
      supply.vv = PAIR_DECAY * supply.vv + dV * dV;
      supply.va = PAIR_DECAY * supply.va + dV * dA;
      supply.aa = PAIR_DECAY * supply.aa + dA * dA;
      supply.pairs++;
    }
  }
  supply.volts = volts;
  supply.amps = amps;
}

/**
 * By what to multiply the current of a run at `volts` to get it at the usual supply; 1 while that
 * is not known.
 */
export function supplyFactor(supply: SupplyEffect, volts: number | undefined): number {
  const { refVolts } = supply;
  if (refVolts === undefined || volts === undefined || volts <= 0) return 1;
  return (refVolts / volts) ** supplySlope(supply);
}

/**
 * Share by which that factor may still be off: what the voltage has moved times what is not known
 * of the slope.
 */
export function supplyFactorUncertainty(supply: SupplyEffect, volts: number | undefined): number {
  const { refVolts } = supply;
  if (refVolts === undefined || volts === undefined || volts <= 0) return 0;
  return Math.abs(Math.log(volts / refVolts)) * slopeUncertainty(supply);
}
