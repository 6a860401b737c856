/**
 * The energy of a run, from measured power (contract, section 7). A mean over a long span that
 * holds the start or the stop holds all that the run took of it, since a pump at rest takes
 * nothing; so of such means the spans count whole, from the one in which the run began.
 */
import { codeOf } from '../domain/channels.ts';
import type { Cycle } from '../cycles/cycle.ts';
import { validForMs } from '../cycles/pace.ts';
import { channelFor } from './channels.ts';
import { addRate, newRunningSum, passedAt } from './running-sum.ts';
import type { WellState } from './well-state.ts';

const J_PER_WH = 3600;
/** A start may be believed two spans of a minute after it; five minutes are room enough. */
const HISTORY_MS = 300_000;

/** One reading of a pump's power, all lines together, W. */
export function handlePower(well: WellState, at: number, tMs: number, watts: number): void {
  const record = well.records[at];
  if (!record) return;
  record.energy ??= newRunningSum();
  const { pace, spanMs } = channelFor(well, codeOf('power', at));
  const covers = spanMs !== undefined ? 'before' : pace.byException ? 'after' : 'between';
  const { lastMs } = record.energy;
  const joules = addRate(record.energy, tMs, Math.max(0, watts), {
    goodMs: validForMs(pace),
    covers,
    historyMs: HISTORY_MS,
  });
  // What it took in a hole is not known.
  if (joules === undefined && lastMs >= 0 && tMs > lastMs) record.energyStartJ = undefined;
}

export function startRunEnergy(well: WellState, at: number, startedMs: number): void {
  const record = well.records[at]!;
  if (!record.energy) return;
  const spanMs = channelFor(well, codeOf('power', at)).spanMs ?? 0;
  record.energyStartJ = passedAt(record.energy, startedMs - spanMs);
}

/**
 * A run is over: its energy is set on its cycle, where power was heard from its start to its stop.
 */
export function setRunEnergy(well: WellState, at: number, cycle: Cycle): void {
  const { energy, energyStartJ } = well.records[at]!;
  const stopJ = energy && passedAt(energy, cycle.stoppedMs);
  if (stopJ === undefined || energyStartJ === undefined) return;
  cycle.energyWh = Math.round(((stopJ - energyStartJ) / J_PER_WH) * 100) / 100;
}
