/** A fault of our own: the well stops, and an alarm says so once. */
import { expect, it } from 'vitest';
import { defaultCardForNode } from '../../../src/core/domain/read-card.ts';
import { stopPipeline } from '../../../src/core/fleet/fault.ts';
import { newPipeline } from '../../../src/core/fleet/well-pipeline.ts';
import { newWell } from '../../../src/core/well/engine.ts';

const NOON = Date.UTC(2026, 2, 2, 12);

it('stopPipeline: says why, names the place in the program for the log, and says it once', () => {
  const pipeline = newPipeline('barn', newWell(defaultCardForNode('barn')));
  const { sentence, events } = stopPipeline(pipeline, new TypeError('no such pump'), NOON);
  expect(pipeline.fault).toBe('no such pump');
  expect(sentence).toContain('Cannot watch barn: TypeError: no such pump\n    at ');
  expect(events).toMatchObject([
    {
      event: 'alarm',
      well: 'barn',
      alarm: 'not-watched',
      state: 'raised',
      at: '2026-03-02T12:00:00.000Z',
      since: '2026-03-02T12:00:00.000Z',
    },
  ]);
  expect(stopPipeline(pipeline, 'again', NOON + 1).events).toEqual([]);
});
