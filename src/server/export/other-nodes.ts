/**
 * Nodes that other wells here read from. A packet's nodes have names of their own, and "node-1" is
 * what many call their first one: a calibration that came along must not scale what a box of that
 * name measures here for another well.
 */
import { referencedNodes } from '../../logbook/export/referenced-nodes.ts';
import type { ActRow, Store } from '../../store/store.ts';

/**
 * By node a well that reads from it, by the cards as they stand; the node of another well's own
 * name is always one.
 */
export async function nodesOfOthers(store: Pick<Store, 'acts'>, well: string): Promise<Map<string, string>> {
  const cards = new Map<string, ActRow>();
  for (const row of await store.acts({ fromMs: 0 }))
    if (row.kind === 'card-changed' && row.well !== undefined && row.well !== well) cards.set(row.well, row);
  return new Map(
    [...cards].flatMap(([other, row]) =>
      [...referencedNodes(other, [row])].map((node): [string, string] => [node, other]),
    ),
  );
}
