/**
 * Sound wells whose node or link is not: slow sampling, readings by exception, restarts, outages,
 * clocks that jump or are not there. That a node was silent may be told where it is true; nothing
 * of the well.
 */
import { DAY_MS, MINUTE_MS } from '../../../../shared/units/duration.ts';
import type { CorpusCase, NodePlan } from '../case.ts';
import { healthyCase } from './case-builders.ts';
import { seeded } from '../../model/random.ts';
import { EVERY_10_S, EVERY_1_S, EVERY_5_S, setup } from './setup.ts';
import { hours, midnight, minutes, spansOn } from './times.ts';

const FROM_MS = midnight(3, 1);
const DAYS = 120;

export function healthyNodes(variant: number): CorpusCase[] {
  return [...samplings(variant), ...outages(variant), rebootsOften(variant), ...clocks(variant)];
}

function samplings(variant: number): CorpusCase[] {
  const ways: { name: string; node: NodePlan }[] = [
    { name: 'two-seconds', node: { ...EVERY_5_S, everyS: 2, packS: 20 } },
    { name: 'five-seconds', node: { ...EVERY_5_S, packS: 60 } },
    { name: 'ten-seconds', node: EVERY_10_S },
    { name: 'by-exception', node: { ...EVERY_5_S, everyS: 0, changeA: 0.15, changeKpa: 2.5, packS: 60 } },
    { name: 'no-pressure', node: { ...EVERY_5_S, withoutPressure: true } },
  ];
  return ways.map(({ name, node }, nth) =>
    healthyCase(`healthy-${name}-${variant}`, {
      about: `a house read by a node: ${name.replaceAll('-', ' ')}`,
      setup: setup({ name: `wraxall-${nth}-${variant}`, seed: 4000 + 100 * variant + nth, node }),
      fromMs: FROM_MS,
      days: 150,
    }),
  );
}

/**
 * A network that blinks for minutes is silent about it; one that is away for hours is missed, and
 * that is true.
 */
function outages(variant: number): CorpusCase[] {
  const random = seeded(4020 + variant);
  const short = Array.from({ length: 60 }, () => {
    const fromMs = FROM_MS + Math.round(random.next() * DAYS * 1440) * MINUTE_MS;
    return { fromMs, untilMs: fromMs + minutes(1 + Math.round(3 * random.next())) };
  });
  return [
    healthyCase(`healthy-network-blinks-${variant}`, {
      about: 'the network is away for some minutes, sixty times',
      setup: setup({
        name: `zeal-0-${variant}`,
        seed: 4020 + 100 * variant,
        node: { ...EVERY_5_S, outages: short },
      }),
      fromMs: FROM_MS,
      days: DAYS,
    }),
    healthyCase(`healthy-network-away-${variant}`, {
      about: 'the network is away for hours, and once for three days; all of it comes later',
      setup: setup({
        name: `zeal-1-${variant}`,
        seed: 4021 + 100 * variant,
        node: {
          ...EVERY_5_S,
          outages: [
            ...spansOn(FROM_MS, [10, 20, 33], 9, 6),
            ...spansOn(FROM_MS, [50], 12, 20),
            ...spansOn(FROM_MS, [70], 0, 9),
          ],
        },
      }),
      fromMs: FROM_MS,
      days: DAYS,
      allowed: ['node-silent'],
    }),
  ];
}

function rebootsOften(variant: number): CorpusCase {
  const random = seeded(4030 + variant);
  const reboots = Array.from({ length: 40 }, (_, nth) => ({
    atMs: FROM_MS + Math.round((2 * nth + random.next()) * 1440) * MINUTE_MS,
    downS: 5 + Math.round(60 * random.next()),
  }));
  return healthyCase(`healthy-reboots-${variant}`, {
    about: 'the node starts anew each other day',
    setup: setup({ name: `abbot-${variant}`, seed: 4030 + 100 * variant, node: { ...EVERY_1_S, reboots } }),
    fromMs: FROM_MS,
    days: DAYS,
  });
}

function clocks(variant: number): CorpusCase[] {
  const jump = (day: number, byS: number, forH: number) => ({
    fromMs: FROM_MS + day * DAY_MS + hours(11),
    untilMs: FROM_MS + day * DAY_MS + hours(11 + forH),
    byS,
  });
  return [
    healthyCase(`healthy-no-clock-${variant}`, {
      about: 'a node without a clock, started anew some times',
      setup: setup({
        name: `bourne-0-${variant}`,
        seed: 4040 + 100 * variant,
        node: {
          ...EVERY_5_S,
          clock: 'none',
          reboots: [9, 30, 61].map((day) => ({ atMs: FROM_MS + day * DAY_MS + hours(13), downS: 20 })),
        },
      }),
      fromMs: FROM_MS,
      days: DAYS,
    }),
    healthyCase(`healthy-clock-jumps-${variant}`, {
      about: 'the clock jumps by hours, back and forth',
      setup: setup({
        name: `bourne-1-${variant}`,
        seed: 4041 + 100 * variant,
        node: {
          ...EVERY_5_S,
          clockJumps: [jump(8, 7200, 3), jump(25, -3600, 5), jump(44, -86_400, 2), jump(66, 4000, 1)],
        },
      }),
      fromMs: FROM_MS,
      days: DAYS,
    }),
  ];
}
