/**
 * The shape of each line of a record, read at the edge. What an act or entry holds beyond it is
 * read by the readers of cards and entries.
 */
import { z } from 'zod';
import { alarmEventShape, baselineShape, cycleShape, dayShape } from '../../../shared/api/event-shapes.ts';
import { ENTRY_KINDS } from '../../../shared/entries/entry-fields.ts';

const opt = z.exactOptional;
/** What a JavaScript date can hold. */
const MAX_MS = 8.64e15;
const ms = z.number().min(-MAX_MS).max(MAX_MS);
const id = z.string().min(1).max(200);
const by = opt(z.string().min(1).max(500));
/** A course of a run has 40 points; more than this is no run of ours. */
const line = z.array(z.number().nullable()).max(1_000);

const act = z.object({
  id,
  atMs: ms,
  by,
  well: opt(id),
  node: opt(id),
  kind: id,
  body: z.record(z.string(), z.unknown()),
});
const entry = z.strictObject({
  id,
  well: id,
  kind: z.enum(ENTRY_KINDS),
  atMs: ms,
  createdMs: ms,
  by,
  replaces: opt(id),
  body: z.record(z.string(), z.unknown()),
});
const cycle = z.object({
  event: cycleShape,
  startedMs: ms,
  stoppedMs: ms,
  shape: opt(z.object({ everyS: z.number(), amps: line, kpa: line })),
});
const alarm = z.object({
  id,
  well: id,
  site: opt(id),
  pump: opt(id),
  node: opt(id),
  alarm: id,
  state: id,
  sinceMs: ms,
  raisedMs: ms,
  clearedMs: opt(ms),
  withdrawnMs: opt(ms),
  acknowledgedMs: opt(ms),
  acknowledgedBy: by,
  shelvedUntilMs: opt(ms),
  event: alarmEventShape,
});

export const headShape = z.object({ is: z.literal('stillwell-record'), version: z.number().int(), well: id });
export const endShape = z.object({ is: z.literal('end'), lines: z.number().int(), sha256: z.string() });
export const lineShape = z.discriminatedUnion('is', [
  z.object({ is: z.literal('act'), row: act }),
  z.object({ is: z.literal('entry'), row: entry }),
  z.object({ is: z.literal('baseline'), row: z.object({ atMs: ms, event: baselineShape }) }),
  z.object({ is: z.literal('day'), row: z.object({ endedMs: ms, event: dayShape }) }),
  z.object({ is: z.literal('cycle'), row: cycle }),
  z.object({ is: z.literal('alarm'), row: alarm }),
]);
export type RecordLine = z.output<typeof lineShape>;
