/**
 * When a well stood still: laid up, or out of service, until it was put back or its written end
 * came. What overlaps is one rest. By acts alone, as the alarms take them
 * (src/core/alarms/lifecycle/acts.ts): laid up again is laid up until the newer end.
 */
export interface DowntimeAct {
  kind: string;
  atMs: number;
  /** The written end of a lay-up. */
  untilMs?: number;
}

export interface Downtime {
  is: 'laid-up' | 'out-of-service';
  sinceMs: number;
  /** When it came back, or is to come back; absent where nobody knows. */
  endMs?: number;
}

/** Oldest first. */
export function downtimes(acts: readonly DowntimeAct[]): Downtime[] {
  const periods: Downtime[] = [];
  for (const { kind, atMs, untilMs } of acts.toSorted((a, b) => a.atMs - b.atMs)) {
    const active = periods.filter((rest) => covers(rest, atMs));
    if (kind === 'back-in-service') for (const rest of active) rest.endMs = atMs;
    if (kind !== 'laid-up' && kind !== 'out-of-service') continue;
    const same = active.find(({ is }) => is === kind);
    if (!same) periods.push({ is: kind, sinceMs: atMs, ...(untilMs !== undefined && { endMs: untilMs }) });
    else setEnd(same, untilMs);
  }
  return mergeOverlaps(periods.filter(({ sinceMs, endMs = Infinity }) => endMs > sinceMs));
}

/** The rest that is on now, if there is one, and else the last that is over. */
export function currentDowntime(
  acts: readonly DowntimeAct[],
  nowMs: number,
): { now?: Downtime; last?: Downtime } {
  const rests = downtimes(acts);
  const now = rests.find((rest) => covers(rest, nowMs));
  if (now) return { now };
  const last = rests.findLast(({ endMs = Infinity }) => endMs <= nowMs);
  return last ? { last } : {};
}

function covers({ sinceMs, endMs = Infinity }: Downtime, atMs: number): boolean {
  return sinceMs <= atMs && atMs < endMs;
}

function setEnd(rest: Downtime, endMs: number | undefined): void {
  if (endMs === undefined) delete rest.endMs;
  else rest.endMs = endMs;
}

/** The one that lasts longer gives the whole its name. */
function mergeOverlaps(rests: readonly Downtime[]): Downtime[] {
  const whole: Downtime[] = [];
  for (const rest of rests) {
    const before = whole.at(-1);
    if (!before || (before.endMs ?? Infinity) < rest.sinceMs) whole.push({ ...rest });
    else if ((rest.endMs ?? Infinity) > (before.endMs ?? Infinity)) {
      before.is = rest.is;
      setEnd(before, rest.endMs);
    }
  }
  return whole;
}
