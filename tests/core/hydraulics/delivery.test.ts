import { describe, expect, test } from 'vitest';
import {
  discardFills,
  learnDelivery,
  newDeliveryEstimate,
  type DeliveryEstimate,
} from '../../../src/core/hydraulics/delivery.ts';
import type { Fill } from '../../../src/core/hydraulics/fill.ts';
import { rateAt } from '../../../src/core/hydraulics/delivery-curve.ts';
import {
  estimateTankAir,
  currentAirKpaL,
  airRatio,
  deliveryRatioOf,
} from '../../../src/core/hydraulics/tank-air.ts';
import { tankOf } from '../../../src/core/hydraulics/tank.ts';
import { row } from './model.ts';

/**
 * A fill by a pump of `pump` (1e-6/kPa/s at 340 kPa, 0.12 % less each kPa), with a draw in it and
 * after it.
 */
function fillOf(
  pump: number,
  options: { inRun?: number; after?: number; noise?: number; error?: number } = {},
): Fill {
  const { inRun = 0, after = inRun, noise = 0, error = 0 } = options;
  const at = (kpa: number): number => pump * 1e-6 * (1 - 0.0012 * (kpa - 340)) * (1 + noise);
  const steady = Math.min(inRun, after) * 1e-6;
  return {
    rate: at(342) + steady - inRun * 1e-6,
    kpa: 342,
    steadyDraw: steady,
    rateError: at(342) * error,
    lateRate: at(375) - inRun * 1e-6 + after * 1e-6,
    lateKpa: 375,
    halves: [at(308) - inRun * 1e-6, at(375) - inRun * 1e-6],
    slowingPerKpa: (1 - (at(375) + steady - inRun * 1e-6) / (at(308) + steady - inRun * 1e-6)) / 67,
    drawBefore: inRun * 1e-6,
    drawAfter: after * 1e-6,
  };
}

function learn(
  fills: Fill[],
  amps: (i: number) => number = () => 8,
  delivery = newDeliveryEstimate(),
): DeliveryEstimate {
  for (const [i, fill] of fills.entries()) learnDelivery(delivery, fill, amps(i));
  return delivery;
}

const many = (n: number, make: (i: number) => Fill): Fill[] => Array.from({ length: n }, (_, i) => make(i));

describe('learnDelivery', () => {
  test.each<[string, (i: number) => Fill]>([
    ['no draw at all', () => fillOf(7)],
    ['a draw in every other run', (i) => fillOf(7, i % 2 === 0 ? {} : { inRun: 2 })],
    ['a draw in three of four', (i) => fillOf(7, i % 4 === 0 ? {} : { inRun: 1 + (i % 3) })],
    ['a draw in every run', (i) => fillOf(7, { inRun: 0.5 + (i % 5) * 0.4 })],
    [
      'draws that stop or begin with the pump',
      (i) => fillOf(7, { inRun: i % 3, after: (i + Math.floor(i / 3)) % 3 }),
    ],
  ])('finds the pump under %s', (_, make) => {
    const { curve } = learn(many(24, make));
    for (const kpa of [290, 340, 400])
      expect(rateAt(curve!, kpa) / (7e-6 * (1 - 0.0012 * (kpa - 340)))).toBeCloseTo(1, 1);
  });

  test('is within 2.5 % (root mean square of 40 wells) under noise of 4 % and a draw in every other run', () => {
    const misses = Array.from({ length: 40 }, (_, seed) => {
      const random = row(seed);
      const make = (i: number): Fill =>
        fillOf(7, { inRun: (i % 2) * 1.5, noise: (random() - 0.5) * 0.14, error: 0.04 });
      return rateAt(learn(many(24, make)).curve!, 340) / 7e-6 - 1;
    });
    expect(Math.hypot(...misses) / Math.sqrt(40)).toBeLessThan(0.025);
  });

  test('is not fooled by a day of irrigation', () => {
    const delivery = learn(many(20, () => fillOf(7)));
    learn(
      many(25, () => fillOf(6.4, { inRun: 4 })),
      undefined,
      delivery,
    );
    expect(rateAt(delivery.curve!, 340) / 7e-6).toBeCloseTo(1, 2);
  });

  test('learns from heavy draws where there is nothing else', () => {
    const { curve } = learn(many(24, () => fillOf(7, { inRun: 4 })));
    expect(rateAt(curve!, 340) / 7e-6).toBeCloseTo(1, 1);
  });

  test('follows a pump that weakens within twenty fills', () => {
    const delivery = learn(many(30, () => fillOf(7)));
    learn(
      many(20, () => fillOf(5.6)),
      undefined,
      delivery,
    );
    expect(rateAt(delivery.curve!, 340) / 5.6e-6).toBeCloseTo(1, 2);
  });

  test('follows a pump that lost two thirds in a night within six fills, though draws go on in most', () => {
    const delivery = learn(many(30, (i) => fillOf(7, { inRun: i % 3 })));
    learn(
      many(6, (i) => fillOf(2.3, { inRun: (i % 3) / 4 })),
      undefined,
      delivery,
    );
    expect(rateAt(delivery.curve!, 340) / 2.3e-6).toBeCloseTo(1, 1);
  });

  test('keeps its level in a morning of draws that end while the pump runs', () => {
    const delivery = learn(many(30, (i) => fillOf(7, { inRun: i % 2 })));
    learn(
      many(5, () => fillOf(7, { inRun: 2, after: 0 })),
      undefined,
      delivery,
    );
    expect(rateAt(delivery.curve!, 340) / 7e-6).toBeCloseTo(1, 1);
  });

  test('begins again where the fills were read wrongly', () => {
    const delivery = learn(many(20, () => fillOf(7)));
    discardFills(delivery);
    learn(
      many(3, () => fillOf(8)),
      undefined,
      delivery,
    );
    expect(rateAt(delivery.curve!, 340) / 8e-6).toBeCloseTo(1, 2);
    expect(delivery.reference).toBeUndefined();
  });
});

describe('airShare', () => {
  const tank = tankOf({ kind: 'captive-air', volumeL: 235, prechargeKpa: 262 }, 0)!;
  const seen = (delivery: DeliveryEstimate) => ({ delivery, knee: [], tank });
  const changed = (pump: number, amps = 8): DeliveryEstimate => {
    const delivery = learn(many(36, () => fillOf(7)));
    return learn(
      many(20, () => fillOf(pump)),
      () => amps,
      delivery,
    );
  };

  test.each<[string, number, number, number, number]>([
    ['nothing changed', 7, 8, 1, 1],
    ['fills twice as steep: half the air', 14, 8, 0.5, 1],
    ['fills a tenth steeper', 7.7, 8, 0.93, 1.02],
    ['fills a tenth steeper, and the motor draws more: the pump', 7.7, 8.25, 1, 1.1],
    ['fills twice as steep is never the pump', 14, 10, 0.5, 1],
    ['fills a fifth slower: the pump', 5.6, 7.7, 1, 0.8],
  ])('%s', (_, pump, amps, share, delivered) => {
    const delivery = changed(pump, amps);
    expect(airRatio(seen(delivery))).toBeCloseTo(share, 1);
    expect(deliveryRatioOf(seen(delivery))!).toBeCloseTo(delivered, 1);
    expect(currentAirKpaL(seen(delivery)) / tank.airKpaL).toBeCloseTo(share, 1);
  });

  test('is said as a precharge where the tank is on the card', () => {
    expect(estimateTankAir(seen(changed(14)))!.prechargeKpa).toBeCloseTo((262 + 101.325) / 2 - 101.325, -1);
    expect(estimateTankAir({ ...seen(changed(14)), tank: null })).not.toHaveProperty('airKpa');
  });

  test('is over 1 where a knee stands over the card’s precharge', () => {
    const knee = [300, 301, 299, 300, 300];
    expect(airRatio({ delivery: newDeliveryEstimate(), knee, tank })).toBeCloseTo(
      (300 + 101.325) / (262 + 101.325),
      6,
    );
  });
});
