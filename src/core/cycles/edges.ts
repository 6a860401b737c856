/**
 * When a pump starts and stops, as a small machine over its current. A start or stop is believed
 * only when a second reading says the same (by exception: when the value has held for 3 s); its
 * time is that of the first one. One odd reading is a spike or a dropout and changes nothing.
 */
export type Phase = 'unknown' | 'rest' | 'pending-run' | 'run' | 'pending-rest';

export interface Edges {
  phase: Phase;
  /** First reading of the change that is not believed yet, ms. */
  candidateMs: number;
  /** The newest reading that agreed with it, ms. */
  agreedMs: number;
}

/** What one reading brought about. */
export type EdgeStep = 'none' | 'started' | 'stopped' | 'spike' | 'dropout' | 'blip';

/** A motor needs longer than this to be off or on; faster sampling must agree for as long. */
const MIN_ON_MS = 200;
const MIN_OFF_MS = 1000;
const HELD_CONFIRMS_MS = 3000;

export function newEdges(): Edges {
  return { phase: 'unknown', candidateMs: 0, agreedMs: 0 };
}

/**
 * One reading. `high` is: over the on level, or over the off level while running. `blip` comes
 * where a single high reading was followed by a low one, `dropout` where a single low one was
 * followed by a high one: the caller, who knows the sampling and the pressure, says what these were
 * (`edgeStopped` turns a dropout into a stop after all).
 */
export function updateEdges(edges: Edges, tMs: number, high: boolean): EdgeStep {
  switch (edges.phase) {
    case 'unknown':
      edges.phase = high ? 'run' : 'rest';
      edges.candidateMs = tMs;
      return high ? 'started' : 'none';
    case 'rest':
      if (high) beginCandidate(edges, 'pending-run', tMs);
      return 'none';
    case 'run':
      if (!high) beginCandidate(edges, 'pending-rest', tMs);
      return 'none';
    case 'pending-run':
      if (!high) {
        edges.phase = 'rest';
        return edges.agreedMs === edges.candidateMs ? 'blip' : 'spike';
      }
      edges.agreedMs = tMs;
      if (tMs - edges.candidateMs < MIN_ON_MS) return 'none';
      edges.phase = 'run';
      return 'started';
    case 'pending-rest':
      if (high) {
        edges.phase = 'run';
        return 'dropout';
      }
      edges.agreedMs = tMs;
      if (tMs - edges.candidateMs < MIN_OFF_MS) return 'none';
      edges.phase = 'rest';
      return 'stopped';
    default:
      return edges.phase satisfies never;
  }
}

/** Time goes on without a reading of current (by exception a value holds until the next one). */
export function advanceEdges(edges: Edges, tMs: number): EdgeStep {
  if (edges.phase === 'pending-run' && tMs - edges.candidateMs >= HELD_CONFIRMS_MS) {
    edges.phase = 'run';
    return 'started';
  }
  if (edges.phase === 'pending-rest' && tMs - edges.candidateMs >= HELD_CONFIRMS_MS) {
    edges.phase = 'rest';
    return 'stopped';
  }
  return 'none';
}

function beginCandidate(edges: Edges, phase: 'pending-run' | 'pending-rest', tMs: number): void {
  edges.phase = phase;
  edges.candidateMs = tMs;
  edges.agreedMs = tMs;
}
