/**
 * People said that more water will be used: a run that does not end while that lasts is explained,
 * and so is one that goes on into the night after, since nobody gets up to close a hose on the
 * minute. Not for ever: guests of three weeks do not explain a tap of three days.
 */
import { HOUR_S } from '../../../shared/units/duration.ts';
import type { OpenRun, Scene } from './scene.ts';

/** From the evening until somebody looks in the morning. */
const NIGHT_AFTER_S = 14 * HOUR_S;
/**
 * A pool of 100 m3 at 25 L/min takes 67 h; larger ones are filled by lorry. Argued, not measured.
 */
const MAX_RUN_S = 72 * HOUR_S;

/** The part of a watch's memory that holds until when unusual use was last expected. */
export interface AnnouncedMemory {
  expectedMs?: number;
}

/**
 * Is the run that goes on explained by what people announced? Asked each minute, since the memory
 * keeps until when that held.
 */
export function isAnnounced(scene: Scene, run: OpenRun, memory: AnnouncedMemory): boolean {
  if (scene.well.expected !== undefined) memory.expectedMs = scene.atMs;
  const expectedMs = memory.expectedMs ?? -Infinity;
  if (expectedMs < run.startedMs) {
    delete memory.expectedMs;
    return false;
  }
  return scene.atMs - expectedMs <= NIGHT_AFTER_S * 1000 && run.ranS <= MAX_RUN_S;
}
