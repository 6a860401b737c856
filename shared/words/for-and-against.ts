/** The evidence for and against each cause of an alarm, in whole sentences: what of its figures moved the weight, and which way. */
import type { UnitSystem } from '../quantity/print-quantity.ts';
import { readClues } from './clues.ts';
import type { AlarmKind, Cause, WeighedCause } from './kinds.ts';

export interface ForAndAgainst {
  cause: Cause;
  for: string[];
  against: string[];
}

/** One a named cause, in the order of the weights; empty lists where nothing measured speaks either way. */
export function forAndAgainst(
  alarm: {
    alarm: AlarmKind;
    evidence: Readonly<Record<string, number | string>>;
    causes: readonly WeighedCause[];
  },
  units: UnitSystem,
): ForAndAgainst[] {
  const clues = readClues(alarm.alarm, alarm.evidence);
  return alarm.causes.map(({ cause }) => {
    const said = (speaks: (odds: number) => boolean): string[] =>
      clues
        .filter(({ reading }) => speaks(reading.odds[cause] ?? 1))
        .map(({ reading }) => reading.says(units));
    return { cause, for: said((odds) => odds > 1), against: said((odds) => odds < 1) };
  });
}
