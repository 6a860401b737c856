import { describe, expect, test } from 'vitest';
import { newHabit } from '../../../../src/core/baseline/habit.ts';
import {
  estimateOvercharge,
  expectedDeliveryRatio,
} from '../../../../src/core/alarms/pump/pressure-shift.ts';
import type { PumpScene, Scene } from '../../../../src/core/alarms/scene.ts';
import { houseCard, PSI, usualBaseline } from '../scene-kit.ts';

/** A scene after twelve runs between these pressures (psi), where 40 and 60 were learnt. */
function after(inPsi: number, outPsi: number): Scene {
  const card = houseCard();
  const baseline = usualBaseline();
  const pump: PumpScene = {
    index: 0,
    card: card.pumps[0]!,
    cycles: Array.from({ length: 12 }, (_, i) => ({
      pump: 0,
      startedMs: i * 1e6,
      stoppedMs: i * 1e6 + 1e5,
      ranS: 100,
      readings: 100,
      cutInKpa: inPsi * PSI,
      cutOutKpa: outPsi * PSI,
      flags: [],
    })),
    startsToday: 0,
    habit: newHabit(),
    baseline,
    pinned: baseline,
  };
  return {
    atMs: 1.2e7,
    trigger: 'cycle',
    well: {
      card,
      minutes: [],
      days: [],
      dayStartedMs: 0,
      dayEndsMs: 8.64e7,
      date: '2026-03-01',
      nodes: [],
      channels: [],
      water: { normalPrechargeKpa: 38 * PSI },
    },
    pump,
    pumps: [pump],
  };
}

/**
 * By hand, at sea level (14.7 psi): (50 + 14.7)^2 / (55 + 14.7)^2 for a gauge 5 psi high, (38 +
 * 14.7) / (48 + 14.7) for air at 48 psi.
 */
describe('shareAtPressures and overfullSeen', () => {
  test.each([
    ['as learnt', 40, 60, 1, undefined],
    ['both 5 psi higher: gauge or switch', 45, 65, 0.862, undefined],
    ['starts at 48 psi, stops as ever: the tank is empty by then', 48, 60, 0.841, 48],
    ['starts a little higher: next to nothing', 41, 60, 0.985, undefined],
    ['cut-out alone', 40, 65, 1, undefined],
    ['both lower', 35, 55, 1, undefined],
  ])('%s', (_, inPsi, outPsi, share, airPsi) => {
    const scene = after(inPsi, outPsi);
    expect(Math.abs(expectedDeliveryRatio(scene) - share)).toBeLessThan(0.005);
    const overfull = estimateOvercharge(scene);
    expect(overfull && Math.round(overfull.prechargeKpa / PSI)).toBe(airPsi);
  });
});
