/**
 * One start to the next, inside: the numbers of the contract's cycle line as plain data with times
 * in ms, before the water is reckoned (hydraulics) and before it is printed (engine).
 */
import type { CycleFlag } from '../../../shared/api/events.ts';

export interface Cycle {
  /** Index of the pump on the card. */
  pump: number;
  startedMs: number;
  stoppedMs: number;
  ranS: number;
  restedS?: number;
  amps?: number;
  amps2?: number;
  amps3?: number;
  /**
   * Amps at the middle of the pressure band and at the usual supply
   * (src/core/baseline/comparable-amps.ts), where the run has them. Not printed.
   */
  ampsAtMid?: number;
  /**
   * A valve throttled the pump while pressure was held (control `constant-pressure-valve`). Not
   * printed.
   */
  throttled?: true;
  startAmps?: number;
  /**
   * How long the current of the start stayed near its peak, s, where a fast record shows it. Not
   * printed.
   */
  startS?: number;
  /**
   * Current well over its own was read long after its start: until how long after, s, and how many
   * times its own that was. Not printed.
   */
  longStart?: { durationS: number; ratio: number };
  /** Mean supply voltage while it ran, V, over all phases measured. Not printed. */
  volts?: number;
  /**
   * What brings its amps to the usual supply, and the share by which that may be off
   * (src/core/baseline/supply.ts). Not printed.
   */
  toNormalVolts?: number;
  voltsUncertainty?: number;
  /**
   * Current fell away within the run and stayed down: when, s from its start, and what share was
   * left (./load-loss.ts). Not printed.
   */
  loadLoss?: { atS: number; ratio: number };
  /** Readings of current in the run. */
  readings: number;
  cutInKpa?: number;
  cutOutKpa?: number;
  riseDelayS?: number;
  deliveredL?: number;
  energyWh?: number;
  flags: CycleFlag[];
  /**
   * The run's shape for the signature overlay, at most 40 points in even steps: seconds from start,
   * amps, kPa.
   */
  shape?: { everyS: number; amps: (number | null)[]; kpa: (number | null)[] };
}
