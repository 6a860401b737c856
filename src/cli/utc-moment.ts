/** A moment for a list that holds wells of several time zones: 2026-11-30 14:05 UTC. */
export function utcMoment(ms: number): string {
  return `${new Date(ms).toISOString().slice(0, 16).replace('T', ' ')} UTC`;
}
