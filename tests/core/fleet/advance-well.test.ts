/** A fault of our own: the well stops, and an alarm says so once. */
import { expect, it } from 'vitest';
import { stopWell } from '../../../src/core/fleet/advance-well.ts';
import type { FleetEffect } from '../../../src/core/fleet/effects.ts';
import { newFleet } from '../../../src/core/fleet/fleet.ts';
import { addDefaultWell } from '../../../src/core/fleet/routing.ts';

const NOON = Date.UTC(2026, 2, 2, 12);

it('stopWell: says why, names the place in the program for the log, and says it once', () => {
  const fleet = newFleet();
  const pipeline = addDefaultWell(fleet, 'barn');
  const effects: FleetEffect[] = [];
  stopWell(fleet, pipeline, new TypeError('no such pump'), NOON, (effect) => effects.push(effect));
  expect(pipeline.fault).toBe('no such pump');
  const event = {
    event: 'alarm',
    well: 'barn',
    alarm: 'not-watched',
    state: 'raised',
    at: '2026-03-02T12:00:00.000Z',
    since: '2026-03-02T12:00:00.000Z',
  };
  expect(effects).toMatchObject([
    {
      is: 'fault',
      why: {
        reason: 'well-stopped',
        figures: {
          well: 'barn',
          trace: expect.stringContaining('TypeError: no such pump\n    at ') as string,
        },
      },
    },
    { is: 'emitted', emitted: { event, orderMs: NOON } },
    { is: 'alarm', row: { well: 'barn', alarm: 'not-watched', sinceMs: NOON }, news: { event } },
  ]);
  effects.length = 0;
  stopWell(fleet, pipeline, 'again', NOON + 1, (effect) => effects.push(effect));
  expect(effects).toEqual([
    { is: 'fault', why: { reason: 'well-stopped', figures: { well: 'barn', trace: 'again' } } },
  ]);
});
