/** What the pages say of causes: how likely each is, and which of them no honest reader can tell apart. */
import { CAUSE_WORDS } from '../../shared/words/cause-words.ts';
import type { Cause, WeighedCause } from '../../shared/words/kinds.ts';
import { lookAlikesOf } from '../../shared/words/look-alikes.ts';

export interface CauseLine {
  causes: Cause[];
  /** "Leak, or open tap". */
  names: string;
  likely: string;
  what: string;
  /** Where several are named together. */
  toldApartBy?: string;
}

/** One line for each cause, heaviest first; look-alikes that are both named share a line and their weight. */
export function causeLines(causes: readonly WeighedCause[]): CauseLine[] {
  const groups = new Map<string, WeighedCause[]>();
  for (const weighed of causes) {
    const key = lookAlikesOf(weighed.cause)?.causes.join(' ') ?? weighed.cause;
    groups.set(key, [...(groups.get(key) ?? []), weighed]);
  }
  return [...groups.values()]
    .map((group) => ({ group, weight: group.reduce((sum, one) => sum + one.weight, 0) }))
    .toSorted((a, b) => b.weight - a.weight)
    .map(({ group, weight }) =>
      lineOf(
        group.map(({ cause }) => cause),
        weight,
      ),
    );
}

function lineOf(causes: Cause[], weight: number): CauseLine {
  const names = causes.map((cause, i) =>
    i === 0 ? CAUSE_WORDS[cause].name : lowerFirst(CAUSE_WORDS[cause].name),
  );
  const toldApartBy = causes.length > 1 && causes[0] ? lookAlikesOf(causes[0])?.toldApartBy : undefined;
  return {
    causes,
    names: names.join(', or '),
    likely: likelyWords(weight),
    what: causes.length === 1 && causes[0] ? CAUSE_WORDS[causes[0]].what : '',
    ...(toldApartBy === undefined ? {} : { toldApartBy }),
  };
}

/** How likely, in words: weights are opinions, and a percentage would promise more than they hold. */
export function likelyWords(weight: number): string {
  if (weight >= 0.6) return 'most likely';
  return weight >= 0.3 ? 'quite possible' : 'less likely';
}

function lowerFirst(text: string): string {
  return /^[A-Z][a-z]/.test(text) ? `${text.charAt(0).toLowerCase()}${text.slice(1)}` : text;
}
