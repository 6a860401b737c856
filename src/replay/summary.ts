/**
 * What a replay says on stderr at its end: what was refused, ignored, too late or overruled, each
 * with its count.
 */
import type { Replay } from './state.ts';

/** Lines to print; none where everything was used. */
export function summaryOf(replay: Replay): string[] {
  const { counts } = replay;
  const lines: string[] = [];
  const list = (title: string, counted: ReadonlyMap<string, number>): void => {
    if (counted.size === 0) return;
    const parts = [...counted].sort((a, b) => b[1] - a[1]).map(([reason, n]) => `${n} ${reason}`);
    lines.push(`${title}: ${parts.join(', ')}`);
  };
  list('lines ignored', counts.ignored);
  list('messages refused', counts.refused);
  if (counts.duplicates > 0) lines.push(`packs that came again: ${counts.duplicates}`);
  if (counts.tooLate > 0) lines.push(`packs too late (over 7 days) and left out: ${counts.tooLate}`);
  let overruled = 0;
  let unknown = 0;
  for (const { state } of replay.nodes.values()) {
    overruled += state.counts.overruled;
    unknown += state.counts.timeUnknown;
  }
  if (overruled > 0) lines.push(`packs with a wrong clock, placed by their arrival: ${overruled}`);
  if (unknown > 0) lines.push(`packs of unknown time, not used: ${unknown}`);
  if (counts.badActs > 0) lines.push(`acts not used: ${counts.badActs}`, ...counts.problems);
  return [...lines, ...replay.faults];
}
