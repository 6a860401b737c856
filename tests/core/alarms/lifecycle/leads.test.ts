/**
 * A new leading cause is told when it has led for a while, and only where a reader could tell it
 * from the old one.
 */
import { expect, it } from 'vitest';
import { kit } from '../scene-kit.ts';

const pressureLost = 'rest 45psi | run 8.6A 30psi x20';
const raised = '16 min long-run raised now broken-pipe';

it('is told after ten minutes', () => {
  const well = kit({ kinds: ['long-run'] }).play(`${pressureLost} | run 6.6A 30psi x9`);
  expect(well.said()).toEqual([raised]);
  well.play('run 6.6A 30psi x3');
  expect(well.said()).toEqual([raised, '32 min long-run changed now low-well']);
});

it('that comes and goes is not told', () => {
  const well = kit({ kinds: ['long-run'] }).play(pressureLost);
  for (let i = 0; i < 10; i++) well.play('run 6.6A 30psi x6 | run 8.6A 30psi x2');
  expect(well.said()).toEqual([raised]);
});

it('that looks the same as the old one is the old one', () => {
  const well = kit({ kinds: ['no-start'] }).play('rest 45psi | rest 36psi x5');
  const [entry] = Object.values(well.alarms.entries);
  entry!.causes = [
    { cause: 'breaker-open', weight: 0.6 },
    { cause: 'power-lost', weight: 0.1 },
  ];
  well.play('rest 36psi x30');
  expect(well.said()).toHaveLength(1);
  expect(entry!.causes[0]!.cause).toBe('power-lost');
});
