/**
 * Why `dry-run` is active, in words: low current from the start, or current that fell within a run.
 */
import type { ReasonFormat } from '../format.ts';
import type { ReasonTexts } from '../reason-text.ts';

export type DryFigures = {
  amps: number;
  /** What the pump should draw: as learned, or the motor's maximum. */
  referenceA: number;
  reference: 'normal' | 'motor-maximum';
  /** False after the run: pressure is then the last of it. */
  isRunning: boolean;
  water: 'none' | 'little-or-none';
  /** Absent without pressure to judge by. */
  kpa?: number;
  /**
   * How long a run this well allows, and what rest brings its water back, if its runs have shown
   * it.
   */
  runLimitS?: number;
  recoveryS?: number;
};

export const dryRunReasons = {
  'dry-low-current': (figures: DryFigures, format) =>
    `The pump ${figures.isRunning ? 'draws' : 'drew'} ${drawn(figures, format)}. ${pressureText(figures, format)}${wellLimit(figures, format)}`,
  'dry-current-fell': (figures: DryFigures & { ranNormallyS: number }, format) =>
    `The pump ran normally for ${format.duration(figures.ranNormallyS)}, then its current fell to ${drawn(figures, format)}. ${pressureText(figures, format)}${wellLimit(figures, format)}`,
} satisfies ReasonTexts;

function drawn({ amps, referenceA, reference }: DryFigures, format: ReasonFormat): string {
  const against = reference === 'normal' ? 'its normal' : "the motor's maximum of";
  return `${format.amps(amps)}, ${format.percent(amps / referenceA)} of ${against} ${format.amps(referenceA)}`;
}

function pressureText({ kpa, isRunning, water }: DryFigures, format: ReasonFormat): string {
  if (kpa === undefined) return 'Pressure is not measured; a closed valve looks the same.';
  const lifts = `${isRunning ? 'lifts' : 'lifted'} ${water === 'none' ? 'no' : 'little or no'} water`;
  return `Pressure ${isRunning ? 'stays' : 'stayed'} at ${format.pressure(kpa)}: the pump ${lifts}.`;
}

function wellLimit({ runLimitS, recoveryS }: DryFigures, format: ReasonFormat): string {
  if (runLimitS === undefined) return '';
  const recovers = recoveryS === undefined ? '' : `; it recovers in ${format.duration(recoveryS)}`;
  return ` Runs over ${format.duration(runLimitS)} pump the well down${recovers}.`;
}
