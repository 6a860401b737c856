/** What people do: checked, kept with its time, and put among the inputs of the wells it is for, in one commit. */
import { randomUUID } from 'node:crypto';
import type { Act } from '../../card/act.ts';
import { isRead } from '../../card/reads.ts';
import { readAct } from '../../card/read-act.ts';
import { tellWellsAgain } from '../../readings/node.ts';
import { wellCeiling } from './ceiling.ts';
import { addInput, type Line } from './line.ts';
import { feedLines, useCard, wellForNode } from './nodes.ts';
import { linesOfAct, type LiveState } from './state.ts';

export type ActDone = { done: true; atMs: number } | { no: string };

/** Does what a person wrote (contract, section 6). The change is pushed; the caller commits. */
export function doAct(live: LiveState, written: unknown, nowMs: number, by?: string): ActDone {
  const read = readAct(written, { strict: true });
  if ('problem' in read) return { no: read.problem };
  const { act } = read;
  if (act.kind === 'acknowledged' && isOfSite(live, act)) return seeSite(live, act, written, nowMs, by);
  const unknown = unknownWell(live, act);
  if (unknown !== undefined) return { no: `Cannot do ${act.kind}: there is no well ${unknown}` };
  const full = act.kind === 'card-changed' && !live.lines.has(act.card.well) ? wellCeiling(live) : undefined;
  if (full !== undefined) return { no: `Cannot add a well: ${full}` };
  const lines = act.kind === 'calibrated' ? feedLines(live, act.node) : linesOfAct(live, act);
  const atMs = momentFor(lines, nowMs);
  if (act.kind === 'card-changed') changeCard(live, act, atMs);
  keepAct(live, act, written, atMs, by);
  for (const line of act.kind === 'card-changed' ? linesOfAct(live, act) : lines) {
    addInput(line, { atMs, act, ...(by !== undefined && { by }) });
    live.touched.add(line);
  }
  noteAcknowledged(live, act, atMs, by);
  return { done: true, atMs };
}

type Acknowledged = Extract<Act, { kind: 'acknowledged' }>;

/** An alarm of a whole site is told under the site's name, which is no well's. */
function isOfSite(live: LiveState, act: Acknowledged): boolean {
  return (live.told.get(act.well) ?? []).some((row) => row.site !== undefined && row.alarm === act.alarm);
}

/** No well's engine knows of it: its row alone remembers that it was seen. */
function seeSite(
  live: LiveState,
  act: Acknowledged,
  written: unknown,
  atMs: number,
  by: string | undefined,
): ActDone {
  keepAct(live, act, written, atMs, by);
  noteAcknowledged(live, act, atMs, by);
  return { done: true, atMs };
}

function keepAct(live: LiveState, act: Act, written: unknown, atMs: number, by: string | undefined): void {
  const well = act.kind === 'card-changed' ? act.card.well : 'well' in act ? act.well : undefined;
  live.changes.push({
    change: 'act',
    row: {
      id: randomUUID(),
      atMs,
      ...(by !== undefined && { by }),
      ...(well !== undefined && { well }),
      ...('node' in act && { node: act.node }),
      kind: act.kind,
      body: written,
    },
  });
}

function unknownWell(live: LiveState, act: Act): string | undefined {
  return 'well' in act && !live.lines.has(act.well) ? act.well : undefined;
}

/** An act is kept with the time at which its wells meet it: never one that they have passed, or a later run would miss it. */
function momentFor(lines: readonly Line[], nowMs: number): number {
  return lines.reduce((atMs, line) => Math.max(atMs, line.passedMs + 1), nowMs);
}

/** A new card is read from at once: what its channels come from may have changed. */
function changeCard(live: LiveState, act: Extract<Act, { kind: 'card-changed' }>, atMs: number): void {
  useCard(live, act.card, atMs);
  for (const [node, entry] of live.nodes) {
    if (entry.letIn && !isRead(live.table, node)) wellForNode(live, node);
    if (!entry.state.fullScale) continue;
    tellWellsAgain(entry.state, atMs);
    live.toSave.add(node);
  }
}

/** Who saw an alarm is kept with the alarm. */
function noteAcknowledged(live: LiveState, act: Act, nowMs: number, by: string | undefined): void {
  if (act.kind !== 'acknowledged') return;
  for (const row of live.told.get(act.well) ?? []) {
    if (row.alarm !== act.alarm || (act.pump !== undefined && row.pump !== act.pump)) continue;
    if (row.acknowledgedMs !== undefined || row.withdrawnMs !== undefined) continue;
    row.acknowledgedMs = nowMs;
    if (row.site !== undefined) row.state = row.clearedMs === undefined ? 'acknowledged' : 'normal';
    if (by !== undefined) row.acknowledgedBy = by;
    live.changes.push({ change: 'alarm', row: { ...row } });
  }
}
