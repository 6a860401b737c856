/**
 * How many nodes and wells one server takes: a node with a slip in its program, or a stolen
 * credential, must not fill memory and disk with names. What is known already is never dropped for
 * it, also where an older version took more.
 */
import { isSourceNode } from '../../core/domain/sources.ts';
import type { LiveState } from './state.ts';

/** Most nodes and wells of one server. */
export interface Ceiling {
  nodes: number;
  wells: number;
}

/**
 * Measured with 20,000 wells without a reading: 301 MiB of memory, 54 MB of disk, 11.6 s of the
 * next start. Half of that, 150 MiB, 27 MB and 6 s, a small computer bears. Each well has a node of
 * its own as a rule.
 */
const CEILING: Ceiling = { nodes: 10_000, wells: 10_000 };

function ceilingOf({ options }: LiveState): Ceiling {
  return options.most ?? CEILING;
}

/** Why no well can be added; undefined where one can. */
export function wellCeiling(live: LiveState): string | undefined {
  const most = ceilingOf(live).wells;
  return live.pipelines.size < most
    ? undefined
    : `one server watches ${most} wells at most, and ${live.pipelines.size} are known`;
}

/** Why this node cannot be added, with the well that it would be of its own. */
export function nodeCeiling(live: LiveState, node: string): string | undefined {
  const most = ceilingOf(live).nodes;
  if (live.nodes.size >= most)
    return `one server takes ${most} nodes at most, and ${live.nodes.size} are known`;
  return live.options.approveAll && !isSourceNode(live.readTable, node) ? wellCeiling(live) : undefined;
}

/** Said as long as a ceiling is reached: what comes new is refused. */
export function ceilingProblems(live: LiveState): string[] {
  const { nodes, pipelines } = live;
  const most = ceilingOf(live);
  const help = `Remove those that are gone: stillwell node forget NAME${live.options.commandOptions ?? ''}`;
  return [
    ...(nodes.size >= most.nodes
      ? [
          `Cannot take a further node: one server takes ${most.nodes} at most, and ${nodes.size} are known. ${help}`,
        ]
      : []),
    ...(pipelines.size >= most.wells
      ? [
          `Cannot take a further well: one server watches ${most.wells} at most, and ${pipelines.size} are known. ${help}`,
        ]
      : []),
  ];
}
