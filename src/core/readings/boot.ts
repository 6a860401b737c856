/**
 * What is known of one boot of a node: which packs are accounted for, when its readings were taken,
 * and how its clock is to be read. A boot is the stretch between two restarts of a node; within it
 * packs are counted 1, 2, 3 …
 */
import { addSeqs, removeSeqs, hasSeq, limitRanges, missingIn, type SeqRange } from './seq-ranges.ts';
import type { UpClock } from './up-clock.ts';

/**
 * Digests are kept of the last packs: 16 bits x 128 are 0.75 KiB at most as JSON, 20 minutes of
 * packs of 10 s.
 */
export const DIGEST_COUNT = 128;
const DIGEST_MASK = 0xffff;
/** Ranges of a boot: 12 holes at once are a bad link; 12 x 45 B stay under the 3 KiB of a node. */
export const MAX_RANGES = 12;
/**
 * Stretches known to be lost that are remembered as such, so that what was given up and comes all
 * the same is taken.
 */
const MAX_LOST = 6;

export interface BootState {
  boot: number;
  /** Accounted for: came, refused, or lost. */
  ranges: SeqRange[];
  /** Of them those given up as lost: `[from, to]`. */
  lost: SeqRange[];
  /** When its readings were taken; absent while none has a known time. */
  fromMs?: number;
  toMs?: number;
  /** Arrival of its first pack or hello; absent in a state saved before it was kept. */
  firstHeardMs?: number;
  /** Arrival of its last pack or hello: what was touched longest ago is forgotten first. */
  lastActivityMs: number;
  /** Its own hello came while it ran. */
  live?: true;
  upClock?: UpClock;
  /** A retained hello that may be the live one (see hello.ts): arrival and uptime. */
  retainedHello?: { arrivalMs: number; upMs: number };
  /** The last pack whose clock was overruled, and what was added to its times. */
  overruled?: { seq: number; claimedMs: number; shiftMs: number };
  /** By seq modulo DIGESTS; -1 where the bytes are not known. Only of the newest boots. */
  digests?: number[];
}

export function newBoot(boot: number, lastActivityMs: number): BootState {
  return { boot, ranges: [], lost: [], firstHeardMs: lastActivityMs, lastActivityMs };
}

/** The highest seq accounted for; 0 before the first. */
export function highSeq(boot: BootState): number {
  return boot.ranges.at(-1)?.to ?? 0;
}

/** Up to which seq everything is accounted for. */
export function ackedTo(boot: BootState): number {
  const first = boot.ranges[0];
  return first?.from === 1 ? first.to : 0;
}

/**
 * `other-bytes`: this seq came before with another payload. `unknown`: it came before, too long ago
 * to tell.
 */
export type PackMatch = 'new' | 'same' | 'other-bytes' | 'unknown';

export function matchPack(boot: BootState, seq: number, digest: number): PackMatch {
  if (!hasSeq(boot.ranges, seq) || hasSeq(boot.lost, seq)) return 'new';
  if (!boot.digests || seq <= highSeq(boot) - DIGEST_COUNT) return 'unknown';
  const stored = boot.digests[seq % DIGEST_COUNT] ?? -1;
  if (stored === -1) return 'new';
  return stored === (digest & DIGEST_MASK) ? 'same' : 'other-bytes';
}

/** A pack is accounted for. `digest` is -1 where there are no bytes to compare with (refused). */
export function markReceived(boot: BootState, seq: number, digest: number, lastMs: number): void {
  boot.digests ??= Array.from({ length: DIGEST_COUNT }, () => -1);
  const high = highSeq(boot);
  // Slots of seqs that were skipped still hold digests of long ago; nobody may compare with those.
  for (let skipped = Math.max(high + 1, seq - DIGEST_COUNT + 1); skipped < seq; skipped++) {
    boot.digests[skipped % DIGEST_COUNT] = -1;
  }
  if (seq > high - DIGEST_COUNT) boot.digests[seq % DIGEST_COUNT] = digest < 0 ? -1 : digest & DIGEST_MASK;
  addSeqs(boot.ranges, seq, seq, lastMs);
  if (boot.ranges.length > MAX_RANGES) limitRanges(boot.ranges, MAX_RANGES);
  if (boot.lost.length > 0) removeSeqs(boot.lost, seq, seq);
}

/**
 * Seqs `from` to `to` that never came are lost: nothing more is wanted of them. Returns how many
 * packs that is.
 */
export function markLost(boot: BootState, from: number, to: number): number {
  const missing = missingIn(boot.ranges, from, to);
  if (missing === 0) return 0;
  let next = from;
  for (const range of [...boot.ranges, { from: to + 1, to: to + 1, lastMs: 0 }]) {
    if (range.from > next) addSeqs(boot.lost, next, Math.min(range.from - 1, to), 0);
    next = Math.max(next, range.to + 1);
    if (next > to) break;
  }
  // The oldest are forgotten: a node that sends what it gave up so long ago is not believed in.
  if (boot.lost.length > MAX_LOST) boot.lost.splice(0, boot.lost.length - MAX_LOST);
  addSeqs(boot.ranges, from, to, 0);
  return missing;
}

/** Readings of this boot were taken between these two times. */
export function extendSpan(boot: BootState, fromMs: number, toMs: number): void {
  if (boot.fromMs === undefined || fromMs < boot.fromMs) boot.fromMs = fromMs;
  if (boot.toMs === undefined || toMs > boot.toMs) boot.toMs = toMs;
}
