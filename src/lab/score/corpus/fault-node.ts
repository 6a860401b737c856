/**
 * The node or the house about it: it falls silent, or the pump house nears frost. Silence is no
 * news of the well, but where the node hangs on the pump's own circuit, or cattle depend on it,
 * somebody must look.
 */
import type { CorpusCase } from '../case.ts';
import { cattle } from './habits.ts';
import { faultyCase, growing, NOW_DEADLINE_MS, combined } from './case-builders.ts';
import { EVERY_5_S, setup, type WellOptions } from './setup.ts';
import { at, hours, minutes } from './times.ts';

export function nodeFaults(): CorpusCase[] {
  return [...silences(), twins(), ...freezes()];
}

/**
 * Never away for more than seconds in two weeks, and then for good. A quarter of an hour is thirty
 * packs.
 */
function silences(): CorpusCase[] {
  const beganMs = at(15, 13);
  const ways: { name: string; options: Partial<WellOptions>; byMs: number }[] = [
    { name: 'house', options: {}, byMs: beganMs + hours(3) },
    {
      name: 'pump-circuit',
      options: { node: { fedFrom: 'pump-circuit' } },
      byMs: beganMs + minutes(15) + NOW_DEADLINE_MS,
    },
    {
      name: 'stock',
      options: { use: 'stock', fixtures: cattle(30), tankGal: 86 },
      byMs: beganMs + minutes(15) + NOW_DEADLINE_MS,
    },
    { name: 'battery', options: { node: { fedFrom: 'battery', packS: 60 } }, byMs: beganMs + hours(3) },
  ];
  return ways.map(({ name, options, byMs }, nth) =>
    faultyCase(`node-silent-${nth + 1}-${name}`, {
      about: 'the node falls silent for good',
      setup: setup({
        ...options,
        name: `ulverton-${nth}`,
        seed: 1200 + nth,
        node: {
          ...EVERY_5_S,
          ...options.node,
          powerCuts: [{ fromMs: beganMs, untilMs: at(60), lastGasp: false }],
        },
      }),
      days: 17,
      fault: {
        what: 'the node says nothing any more',
        family: `node-silent-${name}`,
        size: 1,
        alarms: ['node-silent'],
        causes: ['node-offline', 'power-lost', 'breaker-open'],
        beganMs,
        knowableMs: beganMs + minutes(15),
        byMs,
      },
    }),
  );
}

/**
 * A spare box is fitted beside the first and keeps its name. Two boots that both go on sending for
 * a minute are two boxes; what they read is the same, so of the well nothing is to be said.
 */
function twins(): CorpusCase {
  const beganMs = at(14, 10);
  return faultyCase('node-conflict-1', {
    about: 'two boxes send under one name',
    setup: setup({ name: 'vernham', seed: 1210, node: { twinFromMs: beganMs } }),
    days: 18,
    fault: {
      what: 'two boxes use one name',
      family: 'node-conflict',
      size: 1,
      alarms: ['node-conflict'],
      causes: ['serviced', 'node-offline'],
      beganMs,
      knowableMs: beganMs + minutes(3),
      byMs: beganMs + hours(1),
    },
  });
}

/**
 * 1.7 C and falling is known when the thermometer shows it; frost in the night before that is
 * foreseen at 4 C.
 */
function freezes(): CorpusCase[] {
  const evening = at(15, 16);
  return [0.5, -4, -12].map((lowestC, size) => {
    const fromC = 9;
    const whenAt = (c: number): number => evening + (hours(12) * (fromC - c)) / (fromC - lowestC);
    // Ten minutes of readings under the line show that it falls.
    const knowableMs = whenAt(1.7) + minutes(10);
    return faultyCase(`freeze-risk-${size + 1}`, {
      about: `the heat lamp is out and the pump house cools to ${lowestC} C`,
      setup: setup({
        name: `wensley-${size}`,
        seed: 1220 + size,
        node: { ...EVERY_5_S, extraChannels: ['temperature'] },
      }),
      days: 17,
      schedule: combined(
        growing(0, 1, () => ({ temperatureC: fromC })),
        growing(evening, evening + hours(12), (share) => ({
          temperatureC: fromC + (lowestC - fromC) * share,
        })),
        growing(at(16, 9), at(16, 14), (share) => ({ temperatureC: lowestC + (fromC - lowestC) * share })),
      ),
      fault: {
        what: `the pump house cools to ${lowestC} C`,
        family: 'freeze-risk',
        size: size + 1,
        alarms: ['freeze-risk'],
        causes: ['frozen'],
        beganMs: evening,
        knowableMs,
        byMs: knowableMs + NOW_DEADLINE_MS,
      },
    });
  });
}
