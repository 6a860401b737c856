import { expectTypeOf, test, expect } from 'vitest';
import type { z } from 'zod';
import type { AlarmEvent, BaselineEvent, CycleEvent, DayEvent } from '../../shared/api/events.ts';
import { alarmEventShape, baselineShape, cycleShape, dayShape } from '../../shared/api/event-shapes.ts';
import { actShape } from '../../shared/api/acts.ts';
import type { Store } from '../../src/store/store.ts';
import type { WebStore } from '../../src/http/deps.ts';
import { ACT_KINDS } from '../../src/core/domain/act.ts';

test('the zod shapes of the four lines and their interfaces say the same in both directions', () => {
  expectTypeOf<z.output<typeof cycleShape>>().toEqualTypeOf<CycleEvent>();
  expectTypeOf<z.output<typeof dayShape>>().toEqualTypeOf<DayEvent>();
  expectTypeOf<z.output<typeof baselineShape>>().toEqualTypeOf<BaselineEvent>();
  expectTypeOf<z.output<typeof alarmEventShape>>().toEqualTypeOf<AlarmEvent>();
  // Types are checked by the compiler; at run time each shape must be closed over its literal.
  const events = [cycleShape, dayShape, baselineShape, alarmEventShape].map(
    (shape) => shape.shape.event.value,
  );
  expect(events).toEqual(['cycle', 'day', 'baseline', 'alarm']);
});

test('any store that keeps the store’s contract can be asked by the pages', () => {
  expectTypeOf<Store>().toExtend<WebStore>();
});

test('acts: every kind that a person can do can be sent, and none of the server’s own', () => {
  const sent = actShape.options.map((option) => option.shape.kind.value);
  const servers = ['server-away', 'tick'];
  expect(new Set([...sent, ...servers])).toEqual(new Set(ACT_KINDS));
});
