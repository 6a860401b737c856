import { describe, expect, it } from 'vitest';
import type { AlarmEvent } from '../../shared/api/events.ts';
import { readCard } from '../../src/core/domain/read-card.ts';
import { advance, newWell } from '../../src/core/well/engine.ts';
import { demoWells } from '../../src/lab/demo-wells.ts';
import { newSimulatedWell, simulate } from '../../src/lab/model/well.ts';
import { newSegment } from '../../src/core/readings/inbox.ts';

const NOW = Date.UTC(2026, 10, 25, 18);
const DAYS = 60;
const CURRENT = 0;
const PRESSURE = 3;

/** What the engine tells of one well of the farm over its past, a reading each 5 s. */
function alarmsOf(name: string): AlarmEvent[] {
  const { params, card } = demoWells(NOW).find((well) => well.params.name === name)!;
  const read = readCard(card);
  if ('problem' in read) throw new Error(read.problem);
  const well = newWell(read.card);
  const reported: AlarmEvent[] = [];
  const fromMs = NOW - DAYS * 86_400_000;
  const simulated = newSimulatedWell(params, fromMs);
  const segment = newSegment(2880);
  for (let toMs = fromMs + 7_200_000; toMs <= NOW; toMs += 7_200_000) {
    segment.n = 0;
    simulate(simulated, toMs, 5, (sample) => {
      for (const [code, value] of [
        [CURRENT, sample.amps],
        [PRESSURE, Math.round(sample.kpa * 10) * 100],
      ] as const) {
        segment.timeMs[segment.n] = sample.tMs;
        segment.channel[segment.n] = code;
        segment.value[segment.n++] = value;
      }
    });
    advance(well, segment, ({ event }) => {
      if (event.event === 'alarm') reported.push(event);
    });
  }
  return reported;
}

describe('the stories of the demo farm', () => {
  it.each([
    { name: 'house', story: 'is healthy', alarm: undefined, cause: undefined },
    {
      name: 'bunkhouse',
      story: 'has a tank that loses its air',
      alarm: 'tank-air-lost',
      cause: 'tank-air-lost',
    },
    {
      name: 'north-trough',
      story: 'has switch contacts that stick',
      alarm: 'over-pressure',
      cause: 'switch-contacts-stuck',
    },
    { name: 'south-trough', story: 'has a pump that wears', alarm: 'slow-fill', cause: 'worn-pump' },
  ])('$name $story', ({ name, alarm, cause }) => {
    const raised = alarmsOf(name).filter((event) => event.state === 'raised');
    if (alarm === undefined) {
      expect(raised).toEqual([]);
      return;
    }
    expect(raised.map((event) => event.alarm)).toContain(alarm);
    expect(raised.length).toBeLessThanOrEqual(2);
    const [reported] = raised.filter((event) => event.alarm === alarm);
    expect(reported!.causes![0]!.cause).toBe(cause);
    expect(reported!.why).toMatch(/\d/);
  });
});
