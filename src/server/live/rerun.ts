/**
 * Runs a well again (src/core/fleet/rerun.ts) from what is kept of it: its last save, its acts and
 * news since then, and its readings.
 */
import { HOUR_MS } from '../../../shared/units/duration.ts';
import { readAct } from '../../core/domain/read-act.ts';
import { handle } from '../../core/fleet/handle.ts';
import { addKept, beginRerun, runKept, type Rerun, type SavedWell } from '../../core/fleet/rerun.ts';
import { sourcesOfWell } from '../../core/fleet/routing.ts';
import { formatTime } from '../../core/well/emit.ts';
import type { NodeNews, TimedInput } from '../../core/well/input.ts';
import type { ActRow } from '../../store/store.ts';
import { applyEffects } from './apply-effect.ts';
import { firstKeptMs, readKept } from './kept-readings.ts';
import { renameSavedNews } from './old-names.ts';
import { deserializeState } from './save.ts';
import type { LiveState } from './state.ts';
import { texts } from '../texts.ts';

/** Read and passed in pieces, so that a long stretch takes little memory. */
const CHUNK_MS = 6 * HOUR_MS;

/**
 * Runs a well again from before `fromMs` to its frontier. Reads only what is committed: called
 * before a turn's messages.
 */
export async function rerun(live: LiveState, well: string, fromMs: number, nowMs: number): Promise<void> {
  live.counts.reruns++;
  const saved = await readSnapshot(live, well, fromMs);
  const inputs = await readInputs(live, well, (saved?.atMs ?? -1) + 1);
  const again = beginRerun(live, { well, inputs, ...(saved && { saved }) }, nowMs);
  try {
    await runAgain(live, again);
  } catch (error) {
    again.fault = { error };
  }
  applyEffects(live, handle(live, { is: 'kept-readings', rerun: again }, nowMs), { nowMs });
}

/**
 * A save that can't be read, by damage or because it is of an older version, is passed over: the
 * readings make it again.
 */
async function readSnapshot(live: LiveState, well: string, fromMs: number): Promise<SavedWell | undefined> {
  for (let beforeMs = fromMs - 1; ;) {
    const saved = await live.options.store.snapshot(well, beforeMs);
    if (!saved) return undefined;
    try {
      return { state: deserializeState(saved.state), atMs: saved.atMs };
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      live.options.log('warn', texts().cannotUseWhatWasSaved({ well, atMs: formatTime(saved.atMs), why }));
      beforeMs = saved.atMs - 1;
    }
  }
}

/** Acts and news after the save, as they were kept. */
async function readInputs(live: LiveState, well: string, fromMs: number): Promise<TimedInput[]> {
  const { store } = live.options;
  const inputs: TimedInput[] = [];
  for (const row of await store.acts({ well, fromMs })) {
    if (!appliesTo(live, well, row)) continue;
    const read = readAct(row.body);
    if ('act' in read)
      inputs.push({ atMs: row.atMs, act: read.act, ...(row.by !== undefined && { by: row.by }) });
    else
      live.options.log(
        'warn',
        texts().cannotUseTheAct({ atMs: formatTime(row.atMs), problem: read.problem }),
      );
  }
  for (const { atMs, body } of await store.news(well, fromMs)) {
    renameSavedNews(body);
    inputs.push({ atMs, node: body as NodeNews });
  }
  return inputs;
}

/**
 * An act that names no well is for all, but for a calibration: that is for those which read from
 * its node.
 */
function appliesTo(live: LiveState, well: string, act: ActRow): boolean {
  return act.kind !== 'calibrated' || sourcesOfWell(live, well).some(({ node }) => node === act.node);
}

async function runAgain(live: LiveState, again: Rerun): Promise<void> {
  const { well, sinceMs, toMs, rebuilt } = again;
  const { store } = live.options;
  const sources = sourcesOfWell(live, well);
  // Without a save, which is made within minutes of the first pack, from the first reading on.
  const begin = sinceMs > 0 ? sinceMs : await firstKeptMs(store, sources);
  if (begin > toMs) runKept(again, [], toMs);
  for (let fromMs = begin; fromMs <= toMs; fromMs += CHUNK_MS) {
    const untilMs = Math.min(fromMs + CHUNK_MS, toMs + 1);
    runKept(again, await readKept(store, sources, fromMs, untilMs), untilMs - 1);
  }
  // What lies beyond the frontier waits for its turn, as it did before.
  const rest = await readKept(store, sources, Math.max(begin, toMs + 1), Number.MAX_SAFE_INTEGER);
  addKept(rebuilt, rest);
}
