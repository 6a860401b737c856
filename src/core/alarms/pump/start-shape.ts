/**
 * What the starts of this motor looked like when it was well, and what they look like now. A rotor
 * that is held draws the motor's full starting current until something trips. A motor whose start
 * capacitor or relay is gone stands still too, but on one winding: it draws less than its own good
 * starts did; and before it fails, its good starts take longer. Only a fast record of the start
 * shows either.
 */
import { median } from '../../baseline/robust.ts';
import { hpFromW } from '../../../../shared/units/power.ts';
import { codeLetter } from '../../domain/motor-tables.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import type { PumpCard } from '../../domain/card.ts';

/** The first good starts are the measure; the last ones are held against them. */
const REFERENCE_STARTS = 15;
const MIN_STARTS = 5;
const LAST_STARTS = 5;
/**
 * Longer by half, and by more than a fast sampling of 0.1 s can tell (argued). A motor started on
 * the line is at full speed within half a second (a motor maker's application manual, AIM).
 */
const MIN_LENGTH_RATIO = 1.5;
const MIN_LENGTH_INCREASE_S = 0.2;
/** A run shorter than this was no good start. */
const MIN_GOOD_RUN_S = 20;

/**
 * Of the first good starts the peak, A, and the length, s; of the last ones the length. Absent
 * before the first one.
 */
export interface StartMemory {
  peaks?: number[];
  lengths?: number[];
  lastLengths?: number[];
}

export interface StartShape {
  /** Peak of the vain starts over that of the good ones. */
  peakRatio?: number;
  /** Length of the last good starts and of the first ones, s, where they have become longer. */
  startS?: number;
  normalStartS?: number;
  /**
   * Code letter (NEC table 430.7(B)) of what the vain starts drew, where the motor's size is on the
   * card.
   */
  codeLetter?: string;
}

/** Remembers a good start: peak and length. Starts without a fast record teach nothing. */
export function recordStart(memory: StartMemory, cycle: Cycle, failed: boolean): void {
  const { startAmps, startS } = cycle;
  if (failed || startAmps === undefined || startS === undefined || cycle.ranS < MIN_GOOD_RUN_S) return;
  const peaks = memory.peaks ?? [];
  if (peaks.length < REFERENCE_STARTS) {
    memory.peaks = [...peaks, Math.round(startAmps * 10) / 10];
    memory.lengths = [...(memory.lengths ?? []), startS];
  }
  memory.lastLengths = [...(memory.lastLengths ?? []).slice(1 - LAST_STARTS), startS];
}

/** What the starts say; empty where no fast record was seen. */
export function startShape(memory: StartMemory, tries: readonly Cycle[], card: PumpCard): StartShape {
  const peak = median(tries.map((cycle) => cycle.startAmps).filter((amps) => amps !== undefined));
  const peaks = memory.peaks ?? [];
  const usual = peaks.length < MIN_STARTS ? undefined : median(peaks);
  const letter = peak === undefined ? undefined : codeLetterOf(peak, tries, card);
  return {
    ...(peak !== undefined && usual !== undefined && { peakRatio: peak / usual }),
    ...(letter !== undefined && { codeLetter: letter }),
    ...longerStarts(memory),
  };
}

function longerStarts(memory: StartMemory): Pick<StartShape, 'startS' | 'normalStartS'> {
  const lengths = memory.lengths ?? [];
  const last = memory.lastLengths ?? [];
  if (lengths.length < MIN_STARTS || last.length < LAST_STARTS) return {};
  const [startS, normalStartS] = [median(last)!, median(lengths)!];
  return startS > MIN_LENGTH_RATIO * normalStartS && startS > normalStartS + MIN_LENGTH_INCREASE_S
    ? { startS, normalStartS }
    : {};
}

/**
 * kVA per hp of the current drawn, as NEMA reckons it: V x A / 1000 / hp, for three phases times
 * the square root of 3.
 */
function codeLetterOf(amps: number, tries: readonly Cycle[], card: PumpCard): string | undefined {
  const { motorW, phase } = card;
  const volts = median(tries.map((cycle) => cycle.volts).filter((v) => v !== undefined)) ?? card.volts;
  if (motorW === undefined || volts === undefined || phase === undefined) return undefined;
  const lines = phase === 3 ? Math.sqrt(3) : 1;
  return codeLetter((lines * volts * amps) / 1000 / hpFromW(motorW));
}
