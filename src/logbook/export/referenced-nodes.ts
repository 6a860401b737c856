/** The nodes that the cards of a well ever read from: their calibrations belong to its past. */
import { sourcesOf } from '../../core/domain/sources.ts';
import { readAct } from '../../core/domain/read-act.ts';
import type { ActRow } from '../../core/domain/act-row.ts';

/** The node of the well's own name is always one. */
export function referencedNodes(well: string, acts: readonly Pick<ActRow, 'kind' | 'body'>[]): Set<string> {
  const nodes = new Set([well]);
  for (const { kind, body } of acts) {
    const read = kind === 'card-changed' ? readAct(body) : undefined;
    if (read && 'act' in read && read.act.kind === 'card-changed')
      for (const { node } of sourcesOf(read.act.card)) nodes.add(node);
  }
  return nodes;
}
