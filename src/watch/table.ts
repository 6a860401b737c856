/**
 * All watches, in the order in which they are asked. Those whose alarm explains others come first, so that the others find it
 * standing and become its symptoms (src/alarm/symptoms.ts).
 */
import { dryRun } from './dry-run.ts';
import { longRun } from './long-run.ts';
import { noStart } from './no-start.ts';
import { nodeConflict } from './node-conflict.ts';
import { nodeSilent } from './node-silent.ts';
import { overPressure } from './over-pressure.ts';
import { powerLost } from './power-lost.ts';
import type { Watch } from './scene.ts';
import { shortCycling } from './short-cycling.ts';
import { startsOverLimit } from './starts-over-limit.ts';

export const WATCHES: readonly Watch[] = [
  nodeConflict,
  nodeSilent,
  powerLost,
  overPressure,
  dryRun,
  longRun,
  noStart,
  shortCycling,
  startsOverLimit,
];
