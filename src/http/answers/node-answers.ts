/**
 * Nodes as the API gives them: what they said in `hello`, when they were heard, and which wells
 * read from them.
 */
import { omitUndefined } from '../../../shared/omit-undefined.ts';
import type { NodeAnswer, NodesAnswer } from '../../../shared/api/nodes.ts';
import type { HelloChannel } from '../../core/decode/messages.ts';
import { nodesOf } from '../../core/domain/sources.ts';
import type { StoredNode, WebDeps } from '../deps.ts';
import { selectWells } from './due-answers.ts';

/** Those that wait come first, then by name. */
export async function nodesAnswer(deps: WebDeps): Promise<NodesAnswer> {
  const readBy = new Map<string, string[]>();
  for (const { card } of await selectWells(deps, {})) {
    for (const { node } of nodesOf(card, deps.now()))
      readBy.set(node, [...(readBy.get(node) ?? []), card.well]);
  }
  const nodes = (await deps.store.nodes()).map((row) => nodeAnswer(row, readBy.get(row.node) ?? []));
  return {
    nowMs: deps.now(),
    ...(deps.commandOptions !== undefined && { commandOptions: deps.commandOptions }),
    nodes: nodes.toSorted((a, b) => Number(a.approved) - Number(b.approved) || a.node.localeCompare(b.node)),
  };
}

function nodeAnswer(
  { node, approved, lastHeardMs, hello, ignored }: StoredNode,
  wells: string[],
): NodeAnswer {
  return omitUndefined({
    node,
    approved,
    lastHeardMs,
    firmware: hello?.firmware,
    fedFrom: hello?.fedFrom,
    holdsS: hello?.holdsS,
    speaksFor: hello?.speaksFor,
    channels: (hello?.channels ?? []).map(nodeChannel),
    ignored,
    wells,
  });
}

function nodeChannel({ n, u, every, max }: HelloChannel): NodeAnswer['channels'][number] {
  return omitUndefined({ channel: n, unit: u, everyS: every, fullScale: max });
}
