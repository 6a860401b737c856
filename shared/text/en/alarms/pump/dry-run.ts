/**
 * What is said of `dry-run`. Its reasons: low current from the start, or current that fell within a
 * run; and, as a note, that a protector ends runs as it was fitted to.
 */
import type { ReasonFormat } from '../../reasons/format.ts';
import type { AlarmText } from '../text-shapes.ts';

export type DryFigures = {
  amps: number;
  /** What the pump should draw: as learned, or the motor's maximum. */
  referenceA: number;
  reference: 'normal' | 'motor-maximum';
  /** Of its normal power, where that is what is low. */
  powerRatio?: number;
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

export const dryRunText = {
  title: 'Pump runs but lifts no water',
  means:
    'The motor turns and draws far less than it should, and no water comes. The water it moves cools and lubricates a pump; without it a pump can be ruined in minutes. A closed valve between the pump and the gauge looks the same, and ruins the pump as well.',
  firstStep:
    'Switch the pump off at {breaker} now. Leave it off until somebody has found out why it is dry. Call {firm}. Ask whether somebody closed a valve between well and tank, and leave that valve to the contractor: a pump that ran against it can be full of steam.',
  canBeWrong:
    'Without pressure, low amps alone speak for it, and the alarm says so. A clamp that has slipped half open reads low too. Then water still comes.',
  needs:
    'Current, and what it usually is: learned, or the motor’s service-factor amps on the card. Pressure confirms it; a water level says why.',
  cautions: ['hot-panel', 'only-watches', 'lock-out', 'scalding', 'well-pit', 'stock-water'],
  forms: {
    'ended-by-protector': {
      means:
        'The pump takes more water than the well gives. Its protector stops it each time before harm is done, and starts it again when the well has had time to fill. That is what it is there for.',
      firstStep:
        'Nothing is to be done at once. Keep hands off: the pump will start by itself. Draw less water at a time, or spread it over the day. If this is new, if rests grow, or if the house runs short, call {firm}.',
      canBeWrong:
        'A protector that stops the pump for a closed valve, a plugged intake or a worn pump looks the same. A protector itself can fail: then the pump runs on dry, and that raises an alarm at once.',
      cautions: ['lock-out', 'only-watches', 'stock-water'],
    },
  },
  reasons: {
    'dry-low-current': (figures: DryFigures, format) =>
      `The pump ${figures.isRunning ? 'draws' : 'drew'} ${drawn(figures, format)}. ${pressureText(figures, format)}${wellLimit(figures, format)}`,
    'dry-current-fell': (figures: DryFigures & { ranNormallyS: number }, format) =>
      `The pump ran normally for ${format.duration(figures.ranNormallyS)}, then its current fell to ${drawn(figures, format)}. ${pressureText(figures, format)}${wellLimit(figures, format)}`,
    'dry-ended-by-protector': (
      { times, ...limit }: Pick<DryFigures, 'runLimitS' | 'recoveryS'> & { times: number },
      format,
    ) =>
      `The protector stopped the pump for want of water in ${format.count(times, 'run', 'runs')}.${wellLimit(limit, format)}`,
  },
} satisfies AlarmText;

function drawn({ amps, referenceA, reference, powerRatio }: DryFigures, format: ReasonFormat): string {
  const against = reference === 'normal' ? 'its normal' : "the motor's maximum of";
  return `${format.amps(amps)}, ${format.percent(amps / referenceA)} of ${against} ${format.amps(referenceA)}${powerRatio === undefined ? '' : `, and ${format.percent(powerRatio)} of its normal power`}`;
}

function pressureText({ kpa, isRunning, water }: DryFigures, format: ReasonFormat): string {
  if (kpa === undefined) return 'Pressure is not measured; a closed valve looks the same.';
  const lifts = `${isRunning ? 'lifts' : 'lifted'} ${water === 'none' ? 'no' : 'little or no'} water`;
  return `Pressure ${isRunning ? 'stays' : 'stayed'} at ${format.pressure(kpa)}: the pump ${lifts}.`;
}

function wellLimit(
  { runLimitS, recoveryS }: Pick<DryFigures, 'runLimitS' | 'recoveryS'>,
  format: ReasonFormat,
): string {
  if (runLimitS === undefined) return '';
  const recovers = recoveryS === undefined ? '' : `; it recovers in ${format.duration(recoveryS)}`;
  return ` Runs over ${format.duration(runLimitS)} pump the well down${recovers}.`;
}
