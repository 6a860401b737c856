/**
 * What names each thing that is made of a well, so that the same thing is known again when it is
 * handed over twice.
 */
interface WithPump {
  event: { pump?: string };
}

export function baselineKey({ atMs, event }: { atMs: number } & WithPump): string {
  return `${atMs}/${event.pump ?? ''}`;
}

export function dayKey({ event }: { event: { date: string; pump?: string } }): string {
  return `${event.date}/${event.pump ?? ''}`;
}

export function cycleKey({ startedMs, event }: { startedMs: number } & WithPump): string {
  return `${startedMs}/${event.pump ?? ''}`;
}

export function alarmKey({ id }: { id: string }): string {
  return id;
}
