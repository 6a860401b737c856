/**
 * "Why is there no such alarm?" has an answer for every kind that is evaluated, at every moment.
 */
import { expect, it } from 'vitest';
import { lastEvaluations } from '../../../../src/core/alarms/lifecycle/last-evaluations.ts';
import { WATCHES } from '../../../../src/core/alarms/watches.ts';
import { houseCard, kit, type Kit } from '../scene-kit.ts';

const lastOf = ({ alarms }: Kit, alarm: string): string | undefined =>
  lastEvaluations(alarms, ['p1']).find((answer) => answer.alarm === alarm)?.last;

it('answers for every watch before the first reading', () => {
  const answers = lastEvaluations(kit().alarms, ['p1']);
  expect(answers.map(({ alarm }) => alarm)).toEqual(WATCHES.map(({ alarm }) => alarm));
  expect(new Set(answers.map(({ last }) => last))).toEqual(new Set(['not-evaluated', 'clear']));
});

it.each([
  ['no air sensor', 'rest 45psi', 'freeze-risk', 'needs-temperature'],
  ['warm air', 'rest 45psi 12C', 'freeze-risk', 'clear'],
  ['air between the limits', 'rest 45psi 5C', 'freeze-risk', 'near-limit'],
  ['frost', 'rest 45psi 2C x12', 'freeze-risk', 'active'],
  [
    'a day that ends decides nothing about frost',
    'rest 45psi 2C x12 | day 12 cycles 1300s',
    'freeze-risk',
    'active',
  ],
  ['no voltage', 'rest 45psi x12', 'supply-voltage', 'needs-voltage'],
  ['the rated voltage', 'run 8A 45psi 230V x12', 'supply-voltage', 'clear'],
  ['a pump that has not run', 'rest 45psi', 'cut-out-not-reached', 'pump-off'],
  [
    'a pump that is off since: what its last run said',
    'cycle 118s 8A 40-60psi | rest 45psi x3',
    'cut-out-not-reached',
    'clear',
  ],
  ['one line', 'cycle 118s 8A 40-60psi', 'leg-imbalance', 'needs-three-lines'],
])('%s', (_name, text, alarm, last) => {
  expect(lastOf(kit().play(text), alarm)).toBe(last);
});

it('says that an alarm does not apply to the control', () => {
  const card = houseCard({ pump: { control: 'variable-speed' } });
  expect(lastOf(kit({ card }).play('cycle 118s 8A 40-60psi'), 'amps-low')).toBe('not-this-control');
});

it('says that a visit suppresses all, and forgets what was said before it', () => {
  const well = kit().play('rest 45psi 12C').act({ kind: 'visit-opened', well: 'north-paddock' });
  expect(new Set(lastEvaluations(well.alarms, ['p1']).map(({ last }) => last))).toEqual(
    new Set(['visit-open']),
  );
  well.act({ kind: 'visit-closed', well: 'north-paddock', newBaseline: false });
  expect(lastOf(well, 'freeze-risk')).toBe('not-evaluated');
});
