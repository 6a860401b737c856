/**
 * Nodes as the API gives them: what they said in `hello`, when they were heard, and which wells
 * read from them.
 */
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
  return {
    node,
    approved,
    ...(lastHeardMs === undefined ? {} : { lastHeardMs }),
    ...(hello?.firmware === undefined ? {} : { firmware: hello.firmware }),
    ...(hello?.fedFrom === undefined ? {} : { fedFrom: hello.fedFrom }),
    ...(hello?.holdsS === undefined ? {} : { holdsS: hello.holdsS }),
    ...(hello?.speaksFor === undefined ? {} : { speaksFor: hello.speaksFor }),
    channels: (hello?.channels ?? []).map(nodeChannel),
    ...(ignored === undefined ? {} : { ignored }),
    wells,
  };
}

function nodeChannel({ n, u, every, max }: HelloChannel): NodeAnswer['channels'][number] {
  return {
    channel: n,
    unit: u,
    ...(every === undefined ? {} : { everyS: every }),
    ...(max === undefined ? {} : { fullScale: max }),
  };
}
