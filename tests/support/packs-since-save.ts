/** What a store holds of packs that no saved node state holds, as a list. */
import type { PlacedPack } from '../../src/core/readings/placed-pack.ts';
import type { Store } from '../../src/store/store.ts';

export async function packsSinceSave(store: Store): Promise<PlacedPack[]> {
  const found: PlacedPack[] = [];
  for await (const placed of store.packsSinceSave()) found.push(placed);
  return found;
}
