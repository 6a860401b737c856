/**
 * A symptom that is left alone waits an hour from when somebody could see that, however seldom its
 * watch is asked.
 */
import { expect, it } from 'vitest';
import { newAlarmsState } from '../../../../src/core/alarms/lifecycle/alarm-entry.ts';
import { applyAlarmAct } from '../../../../src/core/alarms/lifecycle/acts.ts';
import { applyEvaluation } from '../../../../src/core/alarms/lifecycle/apply-evaluation.ts';
import { CLEAR, type Active, type Evaluation } from '../../../../src/core/alarms/evaluation.ts';
import { houseCard } from '../scene-kit.ts';
import type { WatchedKind } from '../../../../shared/alarms/catalogue.ts';

const HOUR_MS = 3_600_000;
const found: Active = {
  is: 'active',
  sinceMs: 0,
  reason: 'as-written',
  figures: { text: 'because' },
  evidence: {},
  causes: [],
};

it('told after an hour alone, where its watch looked last in the middle of the trouble', () => {
  const state = newAlarmsState();
  const said: string[] = [];
  const look = (alarm: WatchedKind, atH: number, evaluation: Evaluation): void => {
    applyEvaluation(state, { alarm, atMs: atH * HOUR_MS, pump: 'p1', evaluation }, (line) =>
      said.push(`${atH} h ${alarm} ${line.state}`),
    );
  };
  look('dry-run', 1, found);
  look('amps-low', 2, found);
  look('dry-run', 9, CLEAR);
  look('dry-run', 40, CLEAR);
  expect(said).toEqual(['1 h dry-run raised', '40 h dry-run cleared']);
  look('amps-low', 40.5, found);
  look('amps-low', 41, found);
  expect(said).toHaveLength(2);
  look('amps-low', 41.5, found);
  expect(said[2]).toBe('41.5 h amps-low raised');
});

it('a pump that leaves the card takes its alarms with it', () => {
  const state = newAlarmsState();
  const said: string[] = [];
  const say = (line: { pump?: string; state: string }): void => void said.push(`${line.pump} ${line.state}`);
  for (const pump of ['p1', 'p2'])
    applyEvaluation(state, { alarm: 'dry-run', atMs: HOUR_MS, pump, evaluation: found }, say);
  state.watchMemories = { 'dry-run/p1': {}, 'dry-run/p2': {}, 'leak/-': {} };
  applyAlarmAct(state, { kind: 'card-changed', card: houseCard() }, 2 * HOUR_MS, say);
  expect(said).toEqual(['p1 raised', 'p2 raised', 'p2 cleared']);
  expect(Object.keys(state.entries)).toEqual(['dry-run/p1']);
  expect(Object.keys(state.watchMemories)).toEqual(['dry-run/p1', 'leak/-']);
});
