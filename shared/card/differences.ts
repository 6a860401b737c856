/** What differs between two written cards, field by field, and what two people made of one. */
import { fieldOrder } from './fields.ts';
import type { FlatCard } from './flat-card.ts';

export interface Difference {
  key: string;
  /** Absent where nothing stood, or stands, there. */
  before?: string;
  after?: string;
}

/** In the form's order. */
export function cardDifferences(before: Readonly<FlatCard>, after: Readonly<FlatCard>): Difference[] {
  const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])];
  return keys
    .filter((key) => before[key] !== after[key])
    .toSorted((a, b) => fieldOrder(a) - fieldOrder(b) || (a < b ? -1 : 1))
    .map((key) => ({
      key,
      ...(before[key] !== undefined && { before: before[key] }),
      ...(after[key] !== undefined && { after: after[key] }),
    }));
}

export interface CardConflict {
  key: string;
  theirs?: string;
  yours?: string;
  /**
   * Who changed it from what both had opened. Only where both did is it a question; else the change
   * is nobody's loss.
   */
  changedBy: 'them' | 'you' | 'both';
}

/** Where two people changed one card: every field in which they now differ. */
export function findConflicts(
  opened: Readonly<FlatCard>,
  theirs: Readonly<FlatCard>,
  yours: Readonly<FlatCard>,
): CardConflict[] {
  return cardDifferences(theirs, yours).map(({ key, before, after }) => {
    const [byThem, byYou] = [theirs[key] !== opened[key], yours[key] !== opened[key]];
    return {
      key,
      ...(before !== undefined && { theirs: before }),
      ...(after !== undefined && { yours: after }),
      changedBy: byThem && byYou ? 'both' : byThem ? 'them' : 'you',
    };
  });
}

/** The card that comes of it: theirs, with those fields that were chosen to be yours. */
export function mergeCards(
  theirs: Readonly<FlatCard>,
  yours: Readonly<FlatCard>,
  keepYours: ReadonlySet<string>,
): FlatCard {
  const unchanged = Object.entries(theirs).filter(([key]) => !keepYours.has(key));
  const chosen = Object.entries(yours).filter(([key]) => keepYours.has(key));
  return Object.fromEntries([...unchanged, ...chosen]);
}
