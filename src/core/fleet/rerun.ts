/** When a well is run again for late readings. */
import { MINUTE_MS } from '../../../shared/units/duration.ts';
import type { WellPipeline } from './well-pipeline.ts';

/** At most once a minute a well (design): a backlog of thousands of packs costs one run. */
const RERUN_EVERY_MS = MINUTE_MS;

/** When this well is run again, if it is to be; Infinity where not. */
export function rerunDueMs({ rerunFromMs, reranAtMs }: WellPipeline): number {
  return rerunFromMs === undefined ? Number.POSITIVE_INFINITY : reranAtMs + RERUN_EVERY_MS;
}
