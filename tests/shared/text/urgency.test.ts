/** How soon, in words: each alarm that can be `now` has its level, and no words soften it. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { ALARM_KINDS, type AlarmKind } from '../../../shared/text/en/alarms/kinds.ts';
import {
  isMoreUrgent,
  nowLevel,
  URGENCY_WORDS,
  urgencyOf,
  type Urgency,
} from '../../../shared/text/en/alarms/urgency.ts';
import { prioritiesOf } from './alarms-page.ts';

const contract = readFileSync(
  fileURLToPath(new URL('../../../firmware-contract/contract.md', import.meta.url)),
  'utf8',
);

/** By the contract's table: those that are `now`, always or at times. */
const CAN_BE_NOW: Partial<Record<AlarmKind, Urgency>> = {
  'long-run': 'today',
  'dry-run': 'minutes',
  'failed-start': 'minutes',
  'no-start': 'today',
  'power-lost': 'today',
  'leg-lost': 'minutes',
  'no-water': 'today',
  'no-run': 'today',
  'store-low': 'today',
  'over-pressure': 'minutes',
  'freeze-risk': 'today',
  'level-low': 'minutes',
  'node-silent': 'today',
  'amps-high': 'today',
  'amps-low': 'today',
  'leg-imbalance': 'today',
  'supply-voltage': 'today',
  'not-watched': 'today',
};

describe('urgencyOf', () => {
  it.each(Object.entries(CAN_BE_NOW) as [AlarmKind, Urgency][])('%s, now: %s', (alarm, level) => {
    expect(urgencyOf({ alarm, priority: 'now', evidence: {} })).toBe(level);
  });

  it('those are all that the contract calls now', () => {
    const now = [...prioritiesOf(contract)].flatMap(([kind, priority]) =>
      /\bnow\b/.test(priority) ? [kind] : [],
    );
    expect(now.toSorted()).toEqual(Object.keys(CAN_BE_NOW).toSorted());
  });

  it('minutes matter where the switch should have opened', () => {
    const evidence = { ranS: 480, switch: 'should be open' };
    expect(urgencyOf({ alarm: 'long-run', priority: 'now', evidence })).toBe('minutes');
  });

  it('minutes matter where a motor draws far more than its plate allows', () => {
    const evidence = { amps: 11.6, maxAmps: 9.8, plate: 'exceeded' };
    expect(urgencyOf({ alarm: 'amps-high', priority: 'now', evidence })).toBe('minutes');
  });

  it('of what is not now the priority is the urgency, whatever the alarm', () => {
    for (const alarm of ALARM_KINDS)
      for (const priority of ['soon', 'note'] as const)
        expect(urgencyOf({ alarm, priority, evidence: { switch: 'should be open' } })).toBe(priority);
  });

  it('an alarm whose words say that minutes ruin it says so in its level', () => {
    expect(nowLevel('dry-run')).toBe('minutes');
    expect(isMoreUrgent('minutes', 'today')).toBe(true);
    expect(isMoreUrgent('today', 'today')).toBe(false);
    expect(isMoreUrgent('note', 'soon')).toBe(false);
  });
});

it('the words of minutes say now, and only those of the second level say today', () => {
  const { minutes, today, soon, note } = URGENCY_WORDS;
  for (const words of Object.values(minutes)) expect(words).toMatch(/^act now/iu);
  for (const words of Object.values(today)) expect(words).toMatch(/^act today/iu);
  for (const words of [minutes, soon, note].flatMap((one) => Object.values(one)))
    expect(words).not.toMatch(/today|get up/iu);
});
