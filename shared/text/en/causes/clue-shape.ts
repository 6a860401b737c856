/**
 * What a clue is, and the odds that it gives: coarse on purpose, what a technician would call "that
 * settles it", "that fits" and "hardly".
 */
import type { UnitSystem } from '../../../quantity/format-quantity.ts';
import type { AlarmKind, Cause } from '../alarms/kinds.ts';

export interface ClueReading {
  /** A whole sentence. */
  text: (units: UnitSystem) => string;
  odds: Partial<Record<Cause, number>>;
}

export interface Clue {
  /** Its name in an alarm's evidence. */
  figure: string;
  /** Alarms that are made of this very figure, or to which it is too old: it tells them nothing. */
  excludedAlarms?: readonly AlarmKind[];
  /** Only these, where named. */
  onlyAlarms?: readonly AlarmKind[];
  read: (
    value: number | string,
    evidence: Readonly<Record<string, number | string>>,
  ) => ClueReading | undefined;
}

/** An opinion, to be fitted when labelled recordings of real wells exist. */
export const SETTLES = 4;
export const FITS = 2;
export const FITS_A_LITTLE = 1.4;
export const NOT_QUITE = 0.7;
export const HARDLY = 0.4;
export const SPEAKS_AGAINST = 0.15;
export const RULES_OUT = 0.03;
