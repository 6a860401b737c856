/**
 * Everything that can change a well, each with its time: readings in order, acts of people, news of
 * its nodes, and each whole UTC minute (which the engine makes itself). Acts follow the contract,
 * section 6.
 */
import type { Act } from '../domain/act.ts';
import type { NodeNews } from '../readings/news.ts';

export type { Act } from '../domain/act.ts';
export type { NodeNews } from '../readings/news.ts';
export type { Segment } from '../readings/segment.ts';

export type TimedInput =
  { atMs: number; act: Act; /** who did it, where known */ by?: string } | { atMs: number; node: NodeNews };
