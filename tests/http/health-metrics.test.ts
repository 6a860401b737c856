import { describe, expect, test } from 'vitest';
import { formatMetrics } from '../../src/http/metrics.ts';
import type { MetricFamily } from '../../src/http/metrics.ts';
import { openTestApp } from './support.ts';

describe('/health', () => {
  test('200 while all is well, 503 with its reasons when it is not', async () => {
    const { get, farm } = openTestApp();
    expect((await get('/health')).status).toBe(200);
    farm.healthProblems.push('The disk is full.');
    const ill = await get('/health');
    expect(ill.status).toBe(503);
    expect(await ill.json()).toMatchObject({ ok: false, reasons: ['The disk is full.'] });
  });
  test('says how late the server came to what was due, and nothing before it is known', async () => {
    const { get, farm } = openTestApp();
    expect(await (await get('/health')).json()).not.toHaveProperty('delay');
    farm.loopDelay.now = { minutes: 10, halfMs: 5, p99Ms: 20, maxMs: 140 };
    expect(await (await get('/health')).json()).toMatchObject({ delay: farm.loopDelay.now });
  });
});

describe('printMetrics', () => {
  // Source: OpenMetrics 1.0, text format: metadata first, `_total` on counters, escapes, `# EOF` at
  // the end.
  test('prints counters, gauges, units and labels, and the end', () => {
    const text = formatMetrics([
      {
        name: 'packs_refused',
        type: 'counter',
        help: 'Refused "packs"\nby reason.',
        samples: [{ labels: { reason: 'wrong\\unit' }, value: 3 }],
      },
      {
        name: 'commit_seconds',
        type: 'gauge',
        unit: 'seconds',
        help: 'Last commit.',
        samples: [{ value: 0.0125 }],
      },
      {
        name: 'odd',
        type: 'gauge',
        help: 'No number.',
        samples: [{ value: Number.NaN }, { labels: { of: 'more' }, value: Infinity }],
      },
    ]);
    expect(text).toBe(
      [
        '# TYPE packs_refused counter',
        '# HELP packs_refused Refused \\"packs\\"\\nby reason.',
        'packs_refused_total{reason="wrong\\\\unit"} 3',
        '# TYPE commit_seconds gauge',
        '# UNIT commit_seconds seconds',
        '# HELP commit_seconds Last commit.',
        'commit_seconds 0.0125',
        '# TYPE odd gauge',
        '# HELP odd No number.',
        'odd NaN',
        'odd{of="more"} +Inf',
        '# EOF',
        '',
      ].join('\n'),
    );
  });

  // Source: OpenMetrics 1.0, histogram: cumulative buckets, the last of them +Inf, bounds as
  // floats.
  test('prints a histogram', () => {
    const text = formatMetrics([
      {
        name: 'delay_seconds',
        type: 'histogram',
        unit: 'seconds',
        help: 'How late.',
        bounds: [0.05, 1],
        cumulative: [7, 9, 10],
        sum: 4.25,
      },
    ]);
    expect(text).toBe(
      [
        '# TYPE delay_seconds histogram',
        '# UNIT delay_seconds seconds',
        '# HELP delay_seconds How late.',
        'delay_seconds_bucket{le="0.05"} 7',
        'delay_seconds_bucket{le="1.0"} 9',
        'delay_seconds_bucket{le="+Inf"} 10',
        'delay_seconds_count 10',
        'delay_seconds_sum 4.25',
        '# EOF',
        '',
      ].join('\n'),
    );
  });

  test.each<[why: string, family: MetricFamily]>([
    ['a name that is none', { name: 'no-dash', type: 'gauge', help: '', samples: [] }],
    [
      'a label that is none',
      { name: 'a', type: 'gauge', help: '', samples: [{ labels: { 'x y': '1' }, value: 1 }] },
    ],
    [
      'a unit that the name does not end in',
      { name: 'a', type: 'gauge', unit: 'bytes', help: '', samples: [] },
    ],
  ])('%s is a fault of our own', (_why, family) =>
    expect(() => formatMetrics([family])).toThrow(/Cannot print metrics/),
  );
});
