/**
 * A clamp that falls off while other alarms are active and its node restarts is told all the same.
 */
import { describe, expect, it } from 'vitest';
import { kit } from './scene-kit.ts';

/** A fill that no current is seen in, and the water drawn after it. */
const FILL = 'rest 41psi | rest 41psi to 59psi x3 | rest 59psi to 41psi x4';
const RESTART = 'rest 41psi deaf';

describe('a clamp that falls off', () => {
  it('under two other alarms and with two restarts of its node', () => {
    const one = kit();
    one.play('cycle 118s 8A 40-60psi every 30min x12 | cycle 20s 8A 40-60psi every 1min x12 | rest 74psi x5');
    expect(one.events.map(({ alarm }) => alarm).toSorted()).toEqual(['over-pressure', 'short-cycling']);
    one.play(`${FILL} | ${RESTART} | ${FILL} | ${RESTART} | ${FILL}`);
    expect(one.said().filter((line) => line.includes('sensor-fault'))).toEqual([
      expect.stringContaining('sensor-fault raised soon clamp-off'),
    ]);
  });

  it('in a pump house near freezing: frost explains a gauge, and no clamp', () => {
    const one = kit();
    one.play('cycle 118s 8A 40-60psi every 30min x12 | rest 41psi 1C x30');
    expect(one.events.map(({ alarm }) => alarm)).toEqual(['freeze-risk']);
    one.play(
      'rest 41psi 1C | rest 41psi to 59psi 1C x3 | rest 59psi to 41psi 1C x4 | '.repeat(4).slice(0, -3),
    );
    expect(one.said().filter((line) => line.includes('sensor-fault'))).toEqual([
      expect.stringContaining('sensor-fault raised soon clamp-off'),
    ]);
  });
});
