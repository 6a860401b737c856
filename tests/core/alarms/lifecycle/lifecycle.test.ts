/**
 * The table of states and steps, read aloud: what follows what, and what is refused and changes
 * nothing.
 */
import { describe, expect, it } from 'vitest';
import { ALARM_KINDS } from '../../../../shared/text/en/alarms/kinds.ts';
import {
  LIFE_STATES,
  LIFE_STEPS,
  isSuppressed,
  nextState,
  type LifeState,
  type LifeStep,
} from '../../../../src/core/alarms/lifecycle/lifecycle.ts';
import { applyStep } from '../../../../src/core/alarms/lifecycle/apply-evaluation.ts';
import type { AlarmEntry } from '../../../../src/core/alarms/lifecycle/alarm-entry.ts';
import { CATALOGUE } from '../../../../shared/alarms/catalogue.ts';
import { WATCHES } from '../../../../src/core/alarms/watches.ts';

/** State names and these transitions: ANSI/ISA-18.2-2016 and IEC 62682:2022, from memory. */
const LEGAL: readonly (readonly [LifeState, LifeStep, LifeState])[] = [
  ['normal', 'occurs', 'unacknowledged'],
  ['unacknowledged', 'acknowledge', 'acknowledged'],
  ['unacknowledged', 'returns', 'returned-unacknowledged'],
  ['acknowledged', 'returns', 'normal'],
  ['acknowledged', 're-alarm', 'unacknowledged'],
  ['returned-unacknowledged', 'acknowledge', 'normal'],
  ['returned-unacknowledged', 'occurs', 'unacknowledged'],
  ['unacknowledged', 're-alarm', 'unacknowledged'],
  ...(['normal', 'unacknowledged', 'acknowledged', 'returned-unacknowledged'] as const).flatMap(
    (from) =>
      [
        [from, 'shelve', 'shelved'],
        [from, 'suppress', 'suppressed-by-design'],
        [from, 'remove', 'out-of-service'],
      ] as const,
  ),
  ...(['shelved', 'suppressed-by-design', 'out-of-service'] as const).flatMap(
    (from) =>
      [
        [from, 'occurs', from],
        [from, 'returns', from],
        [from, 'resume-active', 'unacknowledged'],
        [from, 'resume-normal', 'normal'],
      ] as const,
  ),
  ['shelved', 'shelve', 'shelved'],
  ['shelved', 'remove', 'out-of-service'],
  ['suppressed-by-design', 'shelve', 'shelved'],
  ['suppressed-by-design', 'remove', 'out-of-service'],
];

const entry = (state: LifeState): AlarmEntry => ({
  alarm: 'leak',
  state,
  active: true,
  notified: true,
  sinceMs: 1,
  raisedMs: 2,
  stateChangedMs: 3,
  priority: 'soon',
  reason: 'as-written',
  figures: { text: '' },
  evidence: {},
  causes: [],
});

describe('nextState', () => {
  it.each(LEGAL)('%s, %s: %s', (from, taken, to) => {
    expect(nextState(from, taken)).toBe(to);
  });
  const legal = new Set(LEGAL.map(([from, taken]) => `${from} ${taken}`));
  const illegal = LIFE_STATES.flatMap((from) =>
    LIFE_STEPS.filter((taken) => !legal.has(`${from} ${taken}`)).map((taken) => [from, taken] as const),
  );
  it('refuses all other pairs', () => {
    expect(illegal.length).toBe(LIFE_STATES.length * LIFE_STEPS.length - legal.size);
    expect(illegal.length).toBeGreaterThan(20);
  });
  it.each(illegal)('%s, %s: refused, and nothing is changed', (from, taken) => {
    const before = entry(from);
    const after = entry(from);
    expect(applyStep(after, taken, 99)).toBe(false);
    expect(after).toEqual(before);
  });
  it('a legal step is stamped once', () => {
    const after = entry('unacknowledged');
    expect(applyStep(after, 'acknowledge', 99)).toBe(true);
    expect(after).toMatchObject({ state: 'acknowledged', stateChangedMs: 99 });
    expect(LIFE_STATES.filter(isSuppressed)).toEqual(['shelved', 'suppressed-by-design', 'out-of-service']);
  });
});

describe('the tables know every kind', () => {
  it('nothing explains itself', () => {
    for (const kind of ALARM_KINDS) expect(CATALOGUE[kind].explainedBy).not.toContain(kind);
  });
  it('a watch for each that a well can find, once', () => {
    const watched = WATCHES.map((watch) => watch.alarm).sort();
    expect(watched).toEqual(
      ALARM_KINDS.filter((kind) => kind !== 'site-silent' && kind !== 'not-watched').sort(),
    );
  });
});
