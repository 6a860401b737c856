/**
 * When a well stood still: laid up, or out of service, until it was put back or its written end came. What overlaps is one rest. By
 * acts alone, as the alarms take them (src/alarm/acts.ts): laid up again is laid up until the newer end.
 */
export interface RestAct {
  kind: string;
  atMs: number;
  /** The written end of a lay-up. */
  untilMs?: number;
}

export interface Rest {
  is: 'laid-up' | 'out-of-service';
  sinceMs: number;
  /** When it came back, or is to come back; absent where nobody knows. */
  endMs?: number;
}

/** Oldest first. */
export function restsOf(acts: readonly RestAct[]): Rest[] {
  const said: Rest[] = [];
  for (const { kind, atMs, untilMs } of acts.toSorted((a, b) => a.atMs - b.atMs)) {
    const standing = said.filter((rest) => isOn(rest, atMs));
    if (kind === 'back-in-service') for (const rest of standing) rest.endMs = atMs;
    if (kind !== 'laid-up' && kind !== 'out-of-service') continue;
    const same = standing.find(({ is }) => is === kind);
    if (!same) said.push({ is: kind, sinceMs: atMs, ...(untilMs !== undefined && { endMs: untilMs }) });
    else endAt(same, untilMs);
  }
  return joined(said.filter(({ sinceMs, endMs = Infinity }) => endMs > sinceMs));
}

/** The rest that is on now, if there is one, and else the last that is over. */
export function restNow(acts: readonly RestAct[], nowMs: number): { now?: Rest; last?: Rest } {
  const rests = restsOf(acts);
  const now = rests.find((rest) => isOn(rest, nowMs));
  if (now) return { now };
  const last = rests.findLast(({ endMs = Infinity }) => endMs <= nowMs);
  return last ? { last } : {};
}

function isOn({ sinceMs, endMs = Infinity }: Rest, atMs: number): boolean {
  return sinceMs <= atMs && atMs < endMs;
}

function endAt(rest: Rest, endMs: number | undefined): void {
  if (endMs === undefined) delete rest.endMs;
  else rest.endMs = endMs;
}

/** The one that lasts longer gives the whole its name. */
function joined(rests: readonly Rest[]): Rest[] {
  const whole: Rest[] = [];
  for (const rest of rests) {
    const before = whole.at(-1);
    if (!before || (before.endMs ?? Infinity) < rest.sinceMs) whole.push({ ...rest });
    else if ((rest.endMs ?? Infinity) > (before.endMs ?? Infinity)) {
      before.is = rest.is;
      endAt(before, rest.endMs);
    }
  }
  return whole;
}
