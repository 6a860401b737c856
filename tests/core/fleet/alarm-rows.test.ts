/** A row for each alarm's life, and who is to be told. */
import { expect, it } from 'vitest';
import type { AlarmEvent } from '../../../shared/api/events.ts';
import {
  clearNotWatched,
  hasOpenRows,
  publishEvent,
  recordAcknowledgment,
} from '../../../src/core/fleet/alarm-rows.ts';
import type { FleetEffect } from '../../../src/core/fleet/effects.ts';
import { newFleet, type Fleet } from '../../../src/core/fleet/fleet.ts';
import { knownToMs, reconcileAlarms } from '../../../src/core/fleet/rerun-alarms.ts';
import { addDefaultWell } from '../../../src/core/fleet/routing.ts';
import { DAY_MS } from '../../../shared/units/duration.ts';

const NOON = Date.UTC(2026, 2, 2, 12);
const MINUTE = 60_000;

function line(state: AlarmEvent['state'], minute: number, more: Partial<AlarmEvent> = {}): AlarmEvent {
  const at = new Date(NOON + minute * MINUTE).toISOString();
  return {
    event: 'alarm',
    well: 'barn',
    alarm: 'dry-run',
    state,
    at,
    ...(state === 'raised' && { since: at, priority: 'now' as const }),
    ...more,
  };
}

/** What each effect says of a row: its state, and the state of the line that is told, if any. */
function saidOf(effects: readonly FleetEffect[]): string[] {
  return effects.map((effect) =>
    effect.is === 'alarm'
      ? `${effect.row.alarm} ${effect.row.clearedMs === undefined ? 'open' : 'over'}${effect.news ? ` news ${effect.news.event.state}` : ''}`
      : effect.is,
  );
}

function publish(fleet: Fleet, event: AlarmEvent, nowMs = Date.parse(event.at)): string[] {
  const effects: FleetEffect[] = [];
  publishEvent(fleet, event, nowMs, (effect) => effects.push(effect));
  return saidOf(effects);
}

it('publishEvent tells of an alarm once, of its changes, and of its end', () => {
  const fleet = newFleet();
  expect(publish(fleet, line('changed', 0))).toEqual([]);
  expect(publish(fleet, line('raised', 1))).toEqual(['dry-run open news raised']);
  expect(publish(fleet, line('raised', 2))).toEqual(['dry-run open']);
  expect(publish(fleet, line('changed', 3))).toEqual(['dry-run open news changed']);
  expect(publish(fleet, line('cleared', 4))).toEqual(['dry-run over news cleared']);
  expect(publish(fleet, line('cleared', 5))).toEqual([]);
});

it('an alarm that ended is known until late data finds it no more', () => {
  const fleet = newFleet();
  publish(fleet, line('raised', 0));
  publish(fleet, line('cleared', 1));
  publish(fleet, line('cleared', 1), NOON + 8 * DAY_MS);
  expect(fleet.knownAlarms.get('barn')).toHaveLength(1);
  publish(fleet, line('cleared', 1), NOON + 8 * DAY_MS + MINUTE);
  expect(fleet.knownAlarms.get('barn')).toEqual([]);
});

it('recordAcknowledgment keeps who saw it, once', () => {
  const fleet = newFleet();
  publish(fleet, line('raised', 0));
  const effects: FleetEffect[] = [];
  const act = { kind: 'acknowledged', well: 'barn', alarm: 'dry-run' } as const;
  for (const by of ['ann', 'bob'])
    recordAcknowledgment(fleet, act, { atMs: NOON, by }, (effect) => effects.push(effect));
  expect(effects).toMatchObject([{ is: 'alarm', row: { acknowledgedMs: NOON, acknowledgedBy: 'ann' } }]);
});

it('clearNotWatched ends what a fault of our own raised', () => {
  const fleet = newFleet();
  const pipeline = addDefaultWell(fleet, 'barn');
  publish(fleet, line('raised', 0, { alarm: 'not-watched' }));
  expect(hasOpenRows(fleet, pipeline)).toBe(true);
  const effects: FleetEffect[] = [];
  clearNotWatched(fleet, pipeline, NOON + MINUTE, (effect) => effects.push(effect));
  expect(saidOf(effects)).toEqual(['not-watched over news cleared']);
  expect(hasOpenRows(fleet, pipeline)).toBe(false);
});

it('reconcileAlarms withdraws what a run again does not find, and raises what it finds', () => {
  const fleet = newFleet();
  const pipeline = addDefaultWell(fleet, 'barn');
  publish(fleet, line('raised', 1));
  expect(knownToMs(fleet, 'barn')).toBe(NOON + MINUTE);
  const effects: FleetEffect[] = [];
  reconcileAlarms(
    fleet,
    pipeline,
    [line('raised', 2, { alarm: 'amps-low' })],
    { fromMs: NOON, toMs: NOON + 5 * MINUTE, nowMs: NOON + 5 * MINUTE, activeBefore: new Set() },
    (effect) => effects.push(effect),
  );
  expect(saidOf(effects).sort()).toEqual([
    'amps-low open news raised',
    'dry-run open',
    'dry-run open news withdrawn',
  ]);
});
