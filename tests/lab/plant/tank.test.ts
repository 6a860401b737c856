import { describe, expect, it } from 'vitest';
import {
  airKpa,
  releaseAir,
  chargeAtStart,
  dissolve,
  exchangeHeat,
  moveWater,
  newTank,
  adjustCharge,
  waterL,
  type TankState,
} from '../../../src/lab/plant/tank.ts';
import { atmosphereKpa } from '../../../src/lab/plant/plant.ts';
import { psi } from './wells.ts';

const ROOM = 288;

function tank(volumeL: number, prechargePsi: number, gaugeKpa: number, atmosphere = 101.325): TankState {
  const made = newTank(
    { kind: 'captive-air', volumeL, prechargeKpa: psi(prechargePsi) },
    atmosphere,
    gaugeKpa,
    ROOM,
  );
  made.waterK = ROOM;
  return made;
}

/**
 * Draws until the air stands at a gauge pressure; the steps are slow, so the air keeps the room's
 * temperature.
 */
function drawSlowly(from: TankState, toKpa: number, atmosphere: number): number {
  let drawn = 0;
  while (airKpa(from) - atmosphere > toKpa) {
    moveWater(from, -0.005, ROOM);
    exchangeHeat(from, 60, ROOM);
    drawn += 0.005;
  }
  return drawn;
}

describe('the tank', () => {
  // The Driller 2006 (30/50 with 28 psi: 0.295) and the table computed from Boyle's law beside it;
  // by altitude with the US Standard Atmosphere 1976 (from memory), same table.
  it.each([
    { cutIn: 20, cutOut: 40, precharge: 18, altitudeM: 0, factor: 0.3446 },
    { cutIn: 30, cutOut: 50, precharge: 28, altitudeM: 0, factor: 0.2953 },
    { cutIn: 40, cutOut: 60, precharge: 38, altitudeM: 0, factor: 0.2579 },
    { cutIn: 50, cutOut: 70, precharge: 48, altitudeM: 0, factor: 0.2288 },
    { cutIn: 30, cutOut: 50, precharge: 28, altitudeM: 1524, factor: 0.3062 },
    { cutIn: 30, cutOut: 50, precharge: 28, altitudeM: 2286, factor: 0.3113 },
    { cutIn: 30, cutOut: 50, precharge: 10, altitudeM: 0, factor: 0.1708 },
  ])('gives $factor of its volume between $cutIn and $cutOut psi, $precharge psi, at $altitudeM m', (row) => {
    const atmosphere = atmosphereKpa(row.altitudeM);
    const t = tank(100, row.precharge, psi(row.cutOut), atmosphere);
    expect(drawSlowly(t, psi(row.cutIn), atmosphere) / 100).toBeCloseTo(row.factor, 3);
  });

  // A gas that gives no heat follows p V^1.4 (diatomic, textbook).
  it('follows the adiabat where no heat flows', () => {
    const t = tank(100, 38, psi(40));
    const [p, v] = [airKpa(t), t.airL];
    for (let i = 0; i < 1000; i++) moveWater(t, 0.025, ROOM);
    expect(airKpa(t) / p).toBeCloseTo((v / t.airL) ** 1.4, 3);
  });

  it.each([
    { name: 'a small tank filled fast, nearly adiabatic', volumeL: 20, lPerS: 0.8, from: 1.25, to: 1.4 },
    { name: 'a usual tank filled fast', volumeL: 235, lPerS: 0.8, from: 1.12, to: 1.3 },
    { name: 'a large tank filled slowly, nearly isothermal', volumeL: 450, lPerS: 0.2, from: 1.02, to: 1.12 },
  ])('is polytropic: $name', ({ volumeL, lPerS, from, to }) => {
    const t = tank(volumeL, 38, psi(40));
    const [p, v] = [airKpa(t), t.airL];
    while (airKpa(t) - 101.325 < psi(60)) {
      moveWater(t, lPerS * 0.2, ROOM);
      exchangeHeat(t, 0.2, ROOM);
    }
    const exponent = Math.log(airKpa(t) / p) / Math.log(v / t.airL);
    expect(exponent).toBeGreaterThan(from);
    expect(exponent).toBeLessThan(to);
    for (let i = 0; i < 4 * 3600; i++) exchangeHeat(t, 1, ROOM);
    // Cooled, it is where Boyle's law has it.
    expect(airKpa(t) * t.airL).toBeCloseTo(p * v, -1);
  });

  it('cools within minutes, in long steps as in short ones', () => {
    const after = (stepS: number): number[] => {
      const t = tank(235, 38, psi(40));
      while (airKpa(t) - 101.325 < psi(60)) moveWater(t, 0.1, ROOM);
      const hot = airKpa(t);
      const out = [];
      for (const minutes of [1, 4, 15]) {
        for (let s = 0; s < (minutes * 60) / stepS; s++) exchangeHeat(t, stepS, ROOM);
        out.push(hot - airKpa(t));
      }
      return out;
    };
    const fine = after(0.5);
    expect(fine[0]!).toBeGreaterThan(10);
    expect(fine[1]! / fine[2]!).toBeGreaterThan(0.85);
    for (const [at, fall] of after(5).entries()) expect(Math.abs(fall / fine[at]! - 1)).toBeLessThan(0.04);
  });

  it('gives no more than it holds, and says what was short', () => {
    const t = tank(100, 38, psi(40));
    const held = waterL(t);
    expect(moveWater(t, -held - 2, ROOM)).toBeCloseTo(2, 6);
    expect(waterL(t)).toBeCloseTo(0, 6);
  });

  it('takes on the cold of the ground, and the air over it cools', () => {
    const t = tank(100, 38, psi(40));
    moveWater(t, 20, 283);
    expect(t.waterK).toBeLessThan(284.5);
  });
});

describe('the air of the tank', () => {
  it('comes and goes by its valve slowly, and in a burst bladder only goes', () => {
    const t = tank(100, 38, psi(50));
    for (let s = 0; s < 900; s += 5) adjustCharge(t, 0.5, false, 5);
    expect(t.airJPerK / t.chargeJPerK).toBeCloseTo(0.5, 6);
    adjustCharge(t, 0, true, 5);
    expect(t.airJPerK / t.chargeJPerK).toBeCloseTo(0.5, 6);
    adjustCharge(t, 0, false, 5);
    expect(t.airJPerK / t.chargeJPerK).toBeGreaterThan(0.5);
  });

  it('dissolves where it touches water that is changed, to about what water takes, and a charger makes up for it', () => {
    const t = tank(300, 20, psi(40));
    const day = (): void => {
      for (let s = 0; s < 86_400; s += 60) {
        // 600 L a day go through.
        moveWater(t, 0.42, ROOM);
        moveWater(t, -0.42, ROOM);
        exchangeHeat(t, 60, ROOM);
        for (let i = 0; i < 12; i++) dissolve(t, 5);
      }
    };
    const was = t.airJPerK;
    day();
    const lost = was - t.airJPerK;
    // 600 L x 0.0084 J/K per L and atmosphere x 3.7 - 0.9 atmospheres: 14 J/K at most (Henry's law;
    // solubility from memory).
    expect(lost).toBeGreaterThan(1);
    expect(lost).toBeLessThan(14);
    for (let starts = 0; starts < 40; starts++) chargeAtStart(t, 0);
    expect(t.airJPerK).toBeCloseTo(was, 6);
    for (let starts = 0; starts < 40; starts++) chargeAtStart(t, 0.5);
    expect(t.airJPerK).toBeCloseTo(was, 6);
  });

  it('leaves by a tear, and with the last of the water', () => {
    const t = tank(100, 38, psi(55));
    releaseAir(t, 1, false);
    expect(t.airJPerK).toBe(t.chargeJPerK);
    releaseAir(t, 1, true);
    expect(t.airJPerK).toBeLessThan(t.chargeJPerK);
    const low = tank(100, 38, psi(40));
    releaseAir(low, 1, false);
    expect(low.airJPerK).toBeLessThan(low.chargeJPerK);
  });
});
