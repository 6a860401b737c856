/**
 * The evidence for and against each cause of an alarm, in whole sentences: what of its figures
 * moved the weight, and which way.
 */
import type { UnitSystem } from '../../../quantity/format-quantity.ts';
import { evaluateClues } from './clues.ts';
import type { AlarmKind, Cause, WeighedCause } from '../alarms/kinds.ts';

export interface CauseEvidence {
  cause: Cause;
  for: string[];
  against: string[];
}

/**
 * One a named cause, in the order of the weights; empty lists where nothing measured speaks either
 * way.
 */
export function causeEvidence(
  alarm: {
    alarm: AlarmKind;
    evidence: Readonly<Record<string, number | string>>;
    causes: readonly WeighedCause[];
  },
  units: UnitSystem,
): CauseEvidence[] {
  const clues = evaluateClues(alarm.alarm, alarm.evidence);
  return alarm.causes.map(({ cause }) => {
    const textsWhere = (speaks: (odds: number) => boolean): string[] =>
      clues
        .filter(({ reading }) => speaks(reading.odds[cause] ?? 1))
        .map(({ reading }) => reading.text(units));
    return { cause, for: textsWhere((odds) => odds > 1), against: textsWhere((odds) => odds < 1) };
  });
}
