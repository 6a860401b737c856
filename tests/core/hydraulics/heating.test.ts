/**
 * Values reckoned by hand: Boyle's law on absolute pressure at sea level (14.696 psi), a precharge
 * of 38 psi, and the densities of water in the CRC Handbook of Chemistry and Physics (999.70 kg/m³
 * at 10 °C, 983.20 at 60 °C). 50 gal x (999.70 / 983.20 - 1) = 0.84 gal = 3.2 L. The air of a 44
 * gal tank at 60 psi: 44 x 52.7 / 74.7 = 31.0 gal; squeezed to 30.2 gal it stands at 76.8 psi
 * absolute, 2.1 psi more.
 */
import { describe, expect, it } from 'vitest';
import { heatedKpa, swellL } from '../../../src/core/hydraulics/heating.ts';
import { tankOf } from '../../../src/core/hydraulics/tank.ts';

const PSI = 6.894757293168;
const GAL = 3.785411784;

const tank = (gal: number) => tankOf({ kind: 'captive-air', volumeL: gal * GAL, prechargeKpa: 38 * PSI }, 0)!;
const riseOf = (gal: number): number => (heatedKpa(tank(gal), 60 * PSI, 50 * GAL) - 60 * PSI) / PSI;

it('50 gal heated from 10 to 60 °C swell by 3.2 L', () => {
  expect(swellL(50 * GAL)).toBeCloseTo(3.18, 2);
});

describe('behind a sound tank at 60 psi', () => {
  it.each([
    [20, 4.7],
    [44, 2.1],
    [86, 1],
  ])('of %d gal the pressure rises by %d psi', (gal, psi) => {
    expect(riseOf(gal)).toBeCloseTo(psi, 1);
  });

  it('of 2 gal by far more than any relief valve', () => {
    expect(riseOf(2)).toBeGreaterThan(75);
  });
});
