import { describe, expect, it } from 'vitest';
import type { AlarmEvent } from '../../../shared/api/events.ts';
import type { AlarmKind } from '../../../shared/text/en/alarms/kinds.ts';
import type { Fault } from '../../../src/lab/score/case.ts';
import { judge, type FaultResult } from '../../../src/lab/score/judge.ts';
import type { TrueCycle } from '../../../src/lab/plant/params.ts';
import { at, faultCase, houseCase, NODE, played, raised, run } from '../support/corpus-cases.ts';

describe('judge', () => {
  const rows: {
    what: string;
    alarms: AlarmEvent[];
    fault?: Partial<Fault>;
    cycles?: TrueCycle[];
    falseAlarms?: number;
    found: Partial<FaultResult>;
    wrong?: AlarmKind[];
  }[] = [
    {
      what: 'told in its time, its cause by one that looks like it',
      alarms: [raised('tank-air-lost', 3000, ['tank-air-lost', 'leak'])],
      found: {
        afterMs: 1_000_000,
        inTime: true,
        alarms: 1,
        cause: { first: true, second: true, named: ['tank-air-lost', 'leak'] },
      },
    },
    {
      what: 'told before it was knowable counts as told then',
      alarms: [raised('short-cycling', 1500, ['leak', 'bladder-burst'])],
      found: {
        afterMs: 0,
        inTime: true,
        cause: { first: false, second: true, named: ['leak', 'bladder-burst'] },
      },
    },
    {
      what: 'told late',
      alarms: [raised('tank-air-lost', 9001)],
      found: { afterMs: 7_001_000, inTime: false },
    },
    { what: 'not told', alarms: [], found: { inTime: false, alarms: 0 } },
    {
      what: 'told before it began is false, and nothing is found',
      alarms: [raised('tank-air-lost', 900)],
      falseAlarms: 1,
      found: { inTime: false, alarms: 0 },
    },
    {
      what: 'a long run is a symptom, another alarm is wrong, and both are alarms',
      alarms: [raised('long-run', 2500), raised('tank-air-lost', 3000), raised('leak', 3500)],
      found: { inTime: true, alarms: 3 },
      wrong: ['leak'],
    },
    {
      what: 'within so many runs',
      alarms: [raised('tank-air-lost', 3000)],
      fault: { withinCycles: 1 },
      cycles: [run(2100, 2200), run(2300, 2400)],
      found: { runs: 2, inTime: false },
    },
  ];

  it.each(rows)('$what', ({ alarms, fault, cycles, falseAlarms = 0, found, wrong = [] }) => {
    const judged = judge(faultCase(fault), played(alarms, cycles));
    expect(judged.falseAlarms).toHaveLength(falseAlarms);
    expect(judged.fault).toMatchObject(found);
    expect('atMs' in judged.fault!).toBe('afterMs' in found || 'runs' in found || found.inTime === true);
    expect(judged.fault!.wrong.map((reported) => reported.alarm)).toEqual(wrong);
  });

  it('takes a right alarm for the finding where it is allowed beside another, and counts it once', () => {
    const sunk: Partial<Fault> = { alarms: ['dry-run', 'no-water'] };
    const raise = [raised('no-water', 2500), raised('dry-run', 3000), raised('no-water', 4000)];
    const judged = judge({ ...faultCase(sunk), allowed: ['no-water'] }, played(raise));
    expect(judged.fault).toMatchObject({ atMs: at(2500), inTime: true, alarms: 2 });
    expect(judged.fault!.wrong).toEqual([]);
  });

  it('lets a node that is away be silent, and a supply that said so be gone, and nothing else', () => {
    const node = {
      ...NODE,
      outages: [{ fromMs: at(1000), untilMs: at(5000) }],
      powerCuts: [{ fromMs: at(20_000), untilMs: at(21_000), lastGasp: true }],
    };
    const alarms = [
      raised('node-silent', 2000),
      raised('node-silent', 12_000),
      raised('power-lost', 20_001),
      raised('power-lost', 40_000),
      raised('no-run', 2000),
      { ...raised('leak', 3000), state: 'cleared' as const },
    ];
    const judged = judge(houseCase({ node, allowed: ['no-run'] }), played(alarms));
    expect(judged.falseAlarms.map(({ alarm, atMs }) => [alarm, atMs])).toEqual([
      ['node-silent', at(12_000)],
      ['power-lost', at(40_000)],
    ]);
  });

  it('asks for the silence of a node where that is the fault', () => {
    const powerCuts = [{ fromMs: at(1000), untilMs: at(9000), lastGasp: false }];
    const silent = faultCase({ alarms: ['node-silent'] });
    const judged = judge(
      { ...silent, node: { ...NODE, powerCuts } },
      played([raised('node-silent', 2500), raised('power-lost', 2600)]),
    );
    expect(judged.fault).toMatchObject({ inTime: true, alarms: 2 });
    expect(judged.fault!.wrong.map(({ alarm }) => alarm)).toEqual(['power-lost']);
  });
});
