/**
 * One fault, one alarm: what explains what, by the table, by urgency, and by what a broken sensor
 * can spoil.
 */
import { describe, expect, it } from 'vitest';
import type { AlarmKind, Priority } from '../../../../shared/text/en/alarms/kinds.ts';
import { standing } from '../../../../src/core/alarms/lifecycle/alarms.ts';
import type { AlarmEntry } from '../../../../src/core/alarms/lifecycle/alarm-entry.ts';
import { CATALOGUE } from '../../../../shared/alarms/catalogue.ts';
import { explainedBy, explainedByTable } from '../../../../src/core/alarms/lifecycle/symptoms.ts';
import { kit, play } from '../scene-kit.ts';

/** Of pump 1, unless it is of the whole well or of a node. */
function entry(
  alarm: AlarmKind,
  { whole, ...change }: Partial<AlarmEntry> & { whole?: true } = {},
): AlarmEntry {
  return {
    alarm,
    ...(whole !== true && { pump: 'p1' }),
    state: 'unacknowledged',
    active: true,
    notified: true,
    sinceMs: 0,
    raisedMs: 0,
    stateChangedMs: 0,
    priority: CATALOGUE[alarm].priority,
    reason: 'as-written',
    figures: { text: '' },
    evidence: {},
    causes: [],
    ...change,
  };
}

const asked = (alarm: AlarmKind, priority: Priority = CATALOGUE[alarm].priority) => ({
  alarm,
  priority,
  pump: 'p1',
});

describe('namedFor', () => {
  it.each<[string, AlarmKind, AlarmEntry, AlarmKind | undefined]>([
    ['a dead supply explains dry taps', 'no-water', entry('power-lost', { whole: true }), 'power-lost'],
    ['a dead pump explains them too', 'no-water', entry('no-start'), 'no-start'],
    ['another pump does not', 'no-water', entry('no-start', { pump: 'p2' }), undefined],
    ['a held motor explains why nothing starts', 'no-start', entry('failed-start'), 'failed-start'],
    ['and is said itself, for a reset would try it again', 'failed-start', entry('no-start'), undefined],
    ['a leak explains many starts', 'starts-over-limit', entry('leak', { whole: true }), 'leak'],
    ['a note hides nothing that wants doing', 'short-cycling', entry('cycle-count'), undefined],
    [
      'what may wait for days hides no pump that runs on',
      'long-run',
      entry('cut-out-not-reached'),
      undefined,
    ],
    [
      'a suppressed one explains nothing',
      'no-water',
      entry('no-start', { state: 'suppressed-by-design' }),
      undefined,
    ],
    ['nor does its own symptom', 'no-water', entry('no-start', { symptomOf: 'no-water' }), undefined],
    [
      'a thermometer that broke hides no leak',
      'leak',
      entry('sensor-fault', { evidence: { channel: 'temperature' } }),
      undefined,
    ],
    [
      'a gauge that broke does',
      'leak',
      entry('sensor-fault', { evidence: { channel: 'pressure' } }),
      'sensor-fault',
    ],
    ['but no amps', 'amps-high', entry('sensor-fault', { evidence: { channel: 'pressure' } }), undefined],
    [
      'a clamp that is off explains all that is read from runs',
      'no-run',
      entry('sensor-fault', { causes: [{ cause: 'clamp-off', weight: 0.8 }] }),
      'sensor-fault',
    ],
    [
      'a card wrong about the motor: amps',
      'amps-high',
      entry('sensor-fault', { causes: [{ cause: 'bad-card', weight: 0.6 }], evidence: { maxAmps: 9 } }),
      'sensor-fault',
    ],
    [
      'and no pressure',
      'leak',
      entry('sensor-fault', { causes: [{ cause: 'bad-card', weight: 0.6 }], evidence: { maxAmps: 9 } }),
      undefined,
    ],
    [
      'two boxes under one name explain any drift',
      'amps-low',
      entry('node-conflict', { whole: true, node: 'barn' }),
      'node-conflict',
    ],
  ])('%s', (_name, alarm, standsBeside, by) => {
    expect(explainedByTable(asked(alarm), [standsBeside])).toBe(by);
  });

  it('a pump that drives pressure over its limit is told whatever else stands; at rest it is a symptom', () => {
    expect(explainedByTable(asked('over-pressure', 'now'), [entry('long-run')])).toBeUndefined();
    expect(
      explainedBy({ alarm: 'over-pressure', priority: 'now', pump: 'p1' }, [
        entry('long-run'),
        entry('leg-lost'),
      ]),
    ).toBeUndefined();
    expect(explainedByTable(asked('over-pressure', 'soon'), [entry('long-run')])).toBe('long-run');
  });
});

it('a third alarm of a pump needs to be more urgent than the two that were told', () => {
  const two = [entry('switch-shift'), entry('amps-high')];
  expect(explainedBy({ alarm: 'leak', priority: 'soon', pump: 'p1' }, two)).toBe('switch-shift');
  expect(explainedBy({ alarm: 'over-pressure', priority: 'now', pump: 'p1' }, two)).toBeUndefined();
  expect(explainedBy({ alarm: 'freeze-risk', priority: 'soon' }, two)).toBeUndefined();
  // A clamp that fell off makes all that is told of the current worthless.
  expect(explainedBy({ alarm: 'sensor-fault', priority: 'soon', pump: 'p1' }, two)).toBeUndefined();
});

describe('contacts that are welded while a hose runs', () => {
  const lines = (text: string): string[] => play(text, { kinds: ['long-run', 'over-pressure'] });
  const hose = 'run 8A 45psi to 60psi x3 | run 8A 64psi x6';

  it('the long run is told first; once the hose is shut the pressure is told too', () => {
    expect(lines(`${hose} | run 8A 64psi to 80psi x4`)).toEqual([
      '6 min long-run raised now switch-contacts-stuck',
      '11 min over-pressure raised now switch-contacts-stuck',
    ]);
  });

  it('the long run is the symptom then, and the pressure is not', () => {
    const well = kit().play(`${hose} | run 8A 64psi to 80psi x4`);
    expect(standing(well.alarms).map(({ alarm, symptomOf }) => [alarm, symptomOf])).toEqual([
      ['long-run', 'over-pressure'],
      ['over-pressure', undefined],
    ]);
  });

  it('a pump too weak to drive it 10 psi over: told as the contacts at once, and once in a run', () => {
    const open = 'run 8.2A 30psi x20';
    const shut = 'run 8A 64psi x5';
    expect(lines(`${open} | ${shut} | run 8.2A 48psi x900 | ${shut}`)).toEqual([
      '15 min long-run raised now broken-pipe',
      '23 min long-run changed now switch-contacts-stuck',
    ]);
  });
});

describe('an alarm that was told before a heavier one came', () => {
  const worn = 'cycle 160s 7.5A 40-60psi every 60min x20';
  const dry = 'rest 42psi | run 4.4A 38psi x3';

  it('is its symptom from then on, and stays told', () => {
    const well = kit().play(`${worn} | ${dry}`);
    expect(well.said().map((line) => line.split(' ').slice(2, 4).join(' '))).toEqual([
      'amps-low raised',
      'dry-run raised',
    ]);
    expect(
      standing(well.alarms).map(({ alarm, notified, symptomOf }) => [alarm, notified, symptomOf]),
    ).toEqual([
      ['amps-low', true, 'dry-run'],
      ['dry-run', true, undefined],
    ]);
  });

  it('is one of its own again when the heavier one is over', () => {
    const well = kit().play(`${worn} | ${dry} | ${worn} | ${worn}`);
    const [ampsLow] = standing(well.alarms);
    expect([ampsLow?.alarm, ampsLow?.symptomOf]).toEqual(['amps-low', undefined]);
  });
});
