/** Which of the two points moved, and whether both moved alike. */
import { expect, test } from 'vitest';
import { kit } from '../scene-kit.ts';

const healthy = 'cycle 120s 8A 40-59.8psi every 60min x20';
const alike = { 'switch-out-of-set': 0.48, 'transducer-fault': 0.48 };
const switchAlone = { 'switch-out-of-set': 0.67, 'transducer-fault': 0.1 };

test.each([
  ['both by 5 psi', 'cycle 120s 8A 45-64.8psi every 60min x10', 'both-switch-points-moved-alike', alike],
  ['cut-in alone', 'cycle 120s 8A 36.5-59.8psi every 60min x10', 'switch-point-moved', switchAlone],
  [
    'cut-in alone, though the last run ended 2 psi lower too',
    'cycle 120s 8A 36.5-59.8psi every 60min x6 | cycle 120s 8A 36.5-58psi every 60min',
    'switch-point-moved',
    switchAlone,
  ],
])('%s', (_name, shifted, reason, causes) => {
  const { events } = kit({ kinds: ['switch-shift'] }).play(`${healthy} | ${shifted}`);
  const raised = events.find(({ state }) => state === 'raised');
  expect(raised?.reason).toBe(reason);
  const weights = Object.fromEntries(raised?.causes?.map(({ cause, weight }) => [cause, weight]) ?? []);
  expect(weights).toMatchObject(causes);
});
