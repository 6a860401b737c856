import { describe, expect, test } from 'vitest';
import { airChargeFromDraw } from '../../../src/core/hydraulics/measured-draw.ts';
import { pressureOfWaterKpa, tankOf, waterInTankL } from '../../../src/core/hydraulics/tank.ts';

const card = { kind: 'captive-air' as const, volumeL: 235, prechargeKpa: 193 };

function drawFrom(beforeKpa: number, drawnL: number, altitudeM: number): number {
  const tank = tankOf(card, altitudeM)!;
  return pressureOfWaterKpa(tank, waterInTankL(tank, beforeKpa) - drawnL);
}

describe('airOfMeasuredDraw', () => {
  test.each([
    [340, 10, 0],
    [340, 40, 1500],
    [300, 20, 300],
  ])('finds the precharge from %d kPa and %d L at %d m', (beforeKpa, drawnL, altitudeM) => {
    const found = airChargeFromDraw({
      drawnL,
      beforeKpa,
      afterKpa: drawFrom(beforeKpa, drawnL, altitudeM),
      altitudeM,
      volumeL: 235,
    });
    expect(found).toMatchObject({ is: 'found', ranEmpty: false });
    expect(found.is === 'found' && found.prechargeKpa).toBeCloseTo(193, 4);
  });

  // The Driller's worked example the other way round: 25.1 gal between 50 and 30 psi from 85 gal is
  // a precharge of 28 psi.
  test('turns The Driller’s worked example round', () => {
    const psi = 6.894757293168;
    const found = airChargeFromDraw({
      drawnL: 25.1 * 3.785411784,
      beforeKpa: 50 * psi,
      afterKpa: 30 * psi,
      altitudeM: 0,
      volumeL: 85 * 3.785411784,
    });
    expect(found.is === 'found' && found.prechargeKpa! / psi).toBeCloseTo(28, 1);
  });

  test.each([
    ['the person saw it', 150, true],
    ['nothing else can be', 60, false],
  ])('reckons with a tank that ran empty where %s', (_, afterKpa, fellAway) => {
    const tank = tankOf(card, 0)!;
    const drawnL = waterInTankL(tank, 340);
    const found = airChargeFromDraw({
      drawnL,
      beforeKpa: 340,
      afterKpa,
      altitudeM: 0,
      volumeL: 235,
      pressureCollapsed: fellAway,
    });
    expect(found).toMatchObject({ is: 'found', ranEmpty: true });
    expect(found.is === 'found' && found.prechargeKpa).toBeCloseTo(193, 6);
  });

  test.each([
    ['pressure-did-not-fall', { drawnL: 10, beforeKpa: 300, afterKpa: 301 }],
    ['fell-too-little', { drawnL: 1, beforeKpa: 300, afterKpa: 298.5 }],
    ['more-than-the-tank', { drawnL: 400, beforeKpa: 300, afterKpa: 250 }],
  ])('says %s rather than a number', (because, draw) => {
    expect(airChargeFromDraw({ ...draw, altitudeM: 0, volumeL: 235 })).toEqual({ is: 'not-found', because });
  });

  test('finds only the product where the volume is not known', () => {
    const found = airChargeFromDraw({
      drawnL: 30,
      beforeKpa: 340,
      afterKpa: drawFrom(340, 30, 0),
      altitudeM: 0,
    });
    expect(found.is === 'found' && found.airKpaL).toBeCloseTo(235 * (193 + 101.325), 0);
    expect(found).not.toHaveProperty('prechargeKpa');
  });
});
