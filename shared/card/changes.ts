/** How a card came to be what it is: the acts that wrote it -> what each of them changed. */
import { cardDifferences, type Difference } from './differences.ts';
import { flatten, type FlatCard } from './flat-card.ts';

export interface CardChange {
  id: string;
  atMs: number;
  by?: string;
  /** The first card that anybody wrote. */
  first: boolean;
  changes: Difference[];
}

/** An act as the API gives it. */
export interface StoredAct {
  id: string;
  atMs: number;
  by?: string;
  kind: string;
  body?: unknown;
}

/**
 * Acts in the order of their time -> changes, newest first. A card that was written again as it was
 * is no change.
 */
export function cardChanges(acts: readonly StoredAct[]): CardChange[] {
  let before: FlatCard | undefined;
  const changes: CardChange[] = [];
  for (const { id, atMs, by, kind, body } of acts) {
    if (kind !== 'card-changed') continue;
    const { well: _well, ...after } = flatten(cardIn(body));
    const differing = cardDifferences(before ?? {}, after);
    const first = before === undefined;
    if (first || differing.length > 0)
      changes.push({ id, atMs, ...(by !== undefined && { by }), first, changes: differing });
    before = after;
  }
  return changes.toReversed();
}

/** The card that an act wrote down. */
export function cardIn(body: unknown): Record<string, unknown> {
  const card = typeof body === 'object' && body !== null && 'card' in body ? body.card : undefined;
  return typeof card === 'object' && card !== null ? { ...card } : {};
}
