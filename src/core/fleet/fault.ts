/**
 * A fault of our own stops one well and leaves the others running. It is said as an alarm of that
 * well.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import { raiseExternally } from '../alarms/lifecycle/alarms.ts';
import { notWatchedEvaluation } from '../alarms/sensing/not-watched.ts';
import type { WellPipeline } from './well-pipeline.ts';

export interface StoppedWell {
  /** For the log, with where in our program it happened. */
  sentence: string;
  events: AlarmEvent[];
}

export function stopPipeline(pipeline: WellPipeline, error: unknown, atMs: number): StoppedWell {
  const why = error instanceof Error ? error.message : String(error);
  pipeline.fault = why;
  const events: AlarmEvent[] = [];
  const { alarms } = pipeline.state;
  alarms.well = pipeline.well;
  raiseExternally(alarms, 'not-watched', notWatchedEvaluation(atMs, why), atMs, (event) =>
    events.push(event),
  );
  const trace = error instanceof Error ? (error.stack ?? why) : why;
  return { sentence: `Cannot watch ${pipeline.well}: ${trace}`, events };
}
