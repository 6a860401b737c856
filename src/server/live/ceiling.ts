/** How many nodes and wells this server takes, and what is said where it takes no more. */
import type { Ceiling } from '../../core/fleet/ceiling.ts';
import type { LiveState } from './state.ts';
import { texts } from '../texts.ts';

/**
 * Measured with 20,000 wells without a reading: 301 MiB of memory, 54 MB of disk, 11.6 s of the
 * next start. Half of that, 150 MiB, 27 MB and 6 s, a small computer bears. Each well has a node of
 * its own as a rule.
 */
export const CEILING: Ceiling = { nodes: 10_000, wells: 10_000 };

/** Said as long as a ceiling is reached: what comes new is refused. */
export function ceilingProblems({ nodes, pipelines, rules, options }: LiveState): string[] {
  const { ceiling } = rules;
  const help = texts().removeThoseThatAreGone(options.commandOptions ?? '');
  return [
    ...(nodes.size >= ceiling.nodes
      ? [texts().oneServerTakesAtMost({ nodes: ceiling.nodes, size: nodes.size, help })]
      : []),
    ...(pipelines.size >= ceiling.wells
      ? [texts().oneServerWatchesAtMost({ wells: ceiling.wells, size: pipelines.size, help })]
      : []),
  ];
}
