/**
 * What a replay says on stderr at its end: what was refused, ignored, too late or overruled, each
 * with its count.
 */
import type { Replay } from './state.ts';
import { texts } from './texts.ts';

/** Lines to print; none where everything was used. */
export function summaryOf(replay: Replay): string[] {
  const { counts } = replay;
  const lines: string[] = [];
  const list = (title: string, counted: ReadonlyMap<string, number>): void => {
    if (counted.size === 0) return;
    const parts = [...counted].sort((a, b) => b[1] - a[1]).map(([reason, n]) => `${n} ${reason}`);
    lines.push(`${title}: ${parts.join(', ')}`);
  };
  list(texts().linesIgnored, counts.ignored);
  list(texts().messagesRefused, counts.refused);
  if (counts.duplicates > 0) lines.push(texts().packsThatCameAgain(counts.duplicates));
  if (counts.tooLate > 0) lines.push(texts().packsTooLateOverDays(counts.tooLate));
  let overruled = 0;
  let unknown = 0;
  for (const { state } of replay.nodes.values()) {
    overruled += state.counts.overruled;
    unknown += state.counts.timeUnknown;
  }
  if (overruled > 0) lines.push(texts().packsWithAWrongClock(overruled));
  if (unknown > 0) lines.push(texts().packsOfUnknownTimeNot(unknown));
  if (counts.badActs > 0) lines.push(texts().actsNotUsed(counts.badActs), ...counts.problems);
  return [...lines, ...replay.faults];
}
