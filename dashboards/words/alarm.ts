/**
 * What the pages say of causes: how likely each is, what speaks for and against it, and which of
 * them no honest reader can tell apart.
 */
import type { UnitSystem } from '../../shared/quantity/format-quantity.ts';
import { CAUSE_WORDS } from '../../shared/text/en/causes/cause-words.ts';
import { causeEvidence } from '../../shared/text/en/causes/cause-evidence.ts';
import type { AlarmKind, Cause, WeighedCause } from '../../shared/text/en/alarms/kinds.ts';
import { lookAlikesOf } from '../../shared/text/en/causes/look-alikes.ts';
import { lowerFirst } from '../../shared/text/en/names.ts';
import { texts } from '../texts.ts';

export interface CauseLine {
  causes: Cause[];
  /** "Leak, or open tap". */
  names: string;
  likely: string;
  what: string;
  /** Sentences from what was measured and is on the card. */
  for: string[];
  against: string[];
  /**
   * What a person would find where it is so, and where it is not; of the likelier one where several
   * are named together.
   */
  lookFor: string;
  notIf: string;
  /** Where several are named together. */
  distinguishedBy?: string;
}

export interface AlarmWithCauses {
  alarm: AlarmKind;
  evidence: Readonly<Record<string, number | string>>;
  causes: readonly WeighedCause[];
}

/**
 * One line for each cause, heaviest first; look-alikes that are both named share a line and their
 * weight.
 */
export function causeLines(alarm: AlarmWithCauses, units: UnitSystem): CauseLine[] {
  const reasons = new Map(causeEvidence(alarm, units).map((one) => [one.cause, one]));
  const groups = new Map<string, WeighedCause[]>();
  for (const weighed of alarm.causes) {
    const key = lookAlikesOf(weighed.cause)?.causes.join(' ') ?? weighed.cause;
    groups.set(key, [...(groups.get(key) ?? []), weighed]);
  }
  return [...groups.values()]
    .map((group) => ({ group, weight: group.reduce((sum, one) => sum + one.weight, 0) }))
    .toSorted((a, b) => b.weight - a.weight)
    .map(({ group, weight }, at) => {
      const causes = group.map(({ cause }) => cause);
      const sentences = (way: 'for' | 'against'): string[] => [
        ...new Set(causes.flatMap((cause) => reasons.get(cause)?.[way] ?? [])),
      ];
      return {
        ...causeLineOf(causes),
        likely: likelyWords(weight, at === 0),
        for: sentences('for'),
        against: sentences('against'),
      };
    });
}

function causeLineOf(causes: Cause[]): Omit<CauseLine, 'likely' | 'for' | 'against'> {
  const names = causes.map((cause, i) =>
    i === 0 ? CAUSE_WORDS[cause].name : lowerFirst(CAUSE_WORDS[cause].name),
  );
  const first = CAUSE_WORDS[causes[0]!];
  const distinguishedBy = causes.length > 1 ? lookAlikesOf(causes[0]!)?.distinguishedBy : undefined;
  return {
    causes,
    names: names.join(', or '),
    what: causes.map((cause) => CAUSE_WORDS[cause].what).join(' '),
    lookFor: first.evidenceFor,
    notIf: first.evidenceAgainst,
    ...(distinguishedBy === undefined ? {} : { distinguishedBy }),
  };
}

/**
 * How likely, in words: weights are opinions, and a percentage would promise more than they hold.
 */
export function likelyWords(weight: number, isFirst = false): string {
  if (weight >= 0.6) return texts().mostLikely;
  if (isFirst && weight >= 0.3) return texts().likelyUnsure;
  if (isFirst) return texts().likeliestOfSeveral;
  return weight >= 0.3 ? texts().possible : texts().lessLikely;
}
