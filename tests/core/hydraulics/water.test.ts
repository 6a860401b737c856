import { describe, expect, test } from 'vitest';
import type { TankCard } from '../../../src/core/domain/card.ts';
import {
  newWaterState,
  setWaterCard,
  resetWaterBaseline,
  type WaterState,
} from '../../../src/core/hydraulics/water-state.ts';
import { tankAirOf, closeTankDay, waterView } from '../../../src/core/hydraulics/water-view.ts';
import {
  handleWaterGap,
  handleWaterReading,
  handleWaterRunStarted,
  handleWaterRunStopped,
} from '../../../src/core/hydraulics/water.ts';
import { drive, litreErrors, quantile } from './drive.ts';
import { COMMON, MODEL_BEGINS_MS, simulate, type ModelOptions } from './model.ts';

function tankOf(options: Partial<ModelOptions>): TankCard {
  const { volumeL, prechargeKpa } = { ...COMMON, ...options };
  return { kind: 'captive-air', volumeL, prechargeKpa };
}

const abs = (values: number[]): number[] => values.map(Math.abs);

/** Checked against tests/core/hydraulics/model.ts, a well made apart from what is tested. */
describe('water of a well', () => {
  const LOW_SWITCH = { prechargeKpa: 193, cutInKpa: 207, cutOutKpa: 345 };
  test.each<[string, Partial<ModelOptions>, { run: number; day: number }]>([
    ['a common house, a reading each second', {}, { run: 0.04, day: 0.03 }],
    ['another household', { seed: 2 }, { run: 0.04, day: 0.03 }],
    ['a reading each half second', { everyS: 0.5, days: 3 }, { run: 0.04, day: 0.03 }],
    ['a reading each 5 s', { everyS: 5 }, { run: 0.06, day: 0.04 }],
    ['a reading each 10 s', { everyS: 10 }, { run: 0.08, day: 0.05 }],
    ['30/50 with air that cools fast', { ...LOW_SWITCH, coolingS: 10 }, { run: 0.04, day: 0.045 }],
    ['air that keeps its warmth for long', { coolingS: 150 }, { run: 0.05, day: 0.04 }],
    ['air always at room warmth', { coolingS: 0 }, { run: 0.04, day: 0.03 }],
    ['a small tank', { volumeL: 76, everyS: 1 }, { run: 0.06, day: 0.04 }],
    ['a busy house', { drawsPerDay: 150 }, { run: 0.06, day: 0.04 }],
    ['a frost trickle of 300 L/h', { leakLPerH: 300, days: 3 }, { run: 0.04, day: 0.03 }],
  ])('is right in litres: %s', (_, options, most) => {
    const model = simulate(options);
    const driven = drive(model, { tank: tankOf(options) });
    const learned = abs(litreErrors(model, driven, 12));
    expect(learned.length).toBeGreaterThan(8);
    expect(quantile(learned, 0.9)).toBeLessThan(most.run);
    for (const [day, used] of model.usedL.entries()) {
      if (day > 0) expect(Math.abs(driven.days[day]!.usedL! / used - 1)).toBeLessThan(most.day);
    }
  });

  test.each([5, 10, 45, 150])('finds a leak of %d L/h within 20 % each day', (leakLPerH) => {
    const driven = drive(simulate({ leakLPerH, days: 4 }), { tank: tankOf({}) });
    for (const day of driven.days) expect(Math.abs(day.leakLPerDay! / 24 / leakLPerH - 1)).toBeLessThan(0.2);
  });

  test('says no leak where there is none', () => {
    for (const seed of [1, 2, 3]) {
      for (const day of drive(simulate({ days: 3, seed }), { tank: tankOf({}) }).days)
        expect(day.leakLPerDay).toBe(0);
    }
  });

  test('keeps litres right and says the air while the tank loses four fifths of it', () => {
    const options = { days: 12, airShare: (day: number) => Math.max(0.2, 1 - Math.max(0, day - 4) * 0.12) };
    const model = simulate(options);
    const driven = drive(model, { tank: tankOf(options) });
    expect(quantile(abs(litreErrors(model, driven, 40)), 0.9)).toBeLessThan(0.1);
    const air = tankAirOf(driven.state)!;
    expect(air.ratio).toBeGreaterThan(0.17);
    expect(air.ratio).toBeLessThan(0.25);
    expect(waterView(driven.state, driven.state.lastMs).deliveryRatio).toBeCloseTo(1, 1);
  });

  test('keeps litres right and says the pump while it wears by a fifth', () => {
    const options = { days: 18, pumpShare: (day: number) => Math.max(0.8, 1 - Math.max(0, day - 5) * 0.02) };
    const model = simulate(options);
    const driven = drive(model, { tank: tankOf(options) });
    expect(quantile(abs(litreErrors(model, driven, 40)), 0.9)).toBeLessThan(0.06);
    expect(tankAirOf(driven.state)!.ratio).toBe(1);
    const share = waterView(driven.state, driven.state.lastMs).deliveryRatio!;
    expect(share).toBeGreaterThan(0.76);
    expect(share).toBeLessThan(0.85);
  });

  test('finds the knee of a tank pumped up over cut-in', () => {
    // 310 kPa once the air has cooled.
    const options = { days: 4, prechargeKpa: 323 };
    const model = simulate(options);
    const driven = drive(model, { tank: tankOf({}) });
    expect(tankAirOf(driven.state)!.kneeKpa).toBeGreaterThan(300);
    expect(tankAirOf(driven.state)!.kneeKpa).toBeLessThan(320);
    expect(waterView(driven.state, driven.state.lastMs).prechargeKpa!).toBeCloseTo(
      tankAirOf(driven.state)!.kneeKpa!,
      0,
    );
    expect(quantile(abs(litreErrors(model, driven, 20)), 0.9)).toBeLessThan(0.08);
  });

  test('sees no knee in a healthy tank', () => {
    expect(tankAirOf(drive(simulate({ days: 3 }), { tank: tankOf({}) }).state)!.kneeKpa).toBeUndefined();
  });

  test('says no litres of an unknown tank, but compares its fills', () => {
    const driven = drive(simulate({ days: 4 }));
    expect(driven.runs.every((run) => run.deliveredL === undefined && run.tankGainL === undefined)).toBe(
      true,
    );
    expect(driven.days.every((day) => day.usedL === undefined && day.leakLPerDay === undefined)).toBe(true);
    expect(driven.runs.at(-1)!.deliveryRatio).toBeCloseTo(1, 1);
    expect(tankAirOf(driven.state)!.prechargeKpa).toBeUndefined();
  });

  test('cut anywhere, saved and restored, says the same', () => {
    const model = simulate({ days: 2, everyS: 2 });
    const whole = drive(model, { tank: tankOf({}) });
    const cut = drive(model, {
      tank: tankOf({}),
      between: (state, at) => (at % 97 === 0 ? structuredClone(JSON.parse(JSON.stringify(state))) : state),
    });
    expect(cut.runs).toEqual(whole.runs);
    expect(cut.days).toEqual(whole.days);
  });

  test('keeps its state short', () => {
    expect(drive(simulate({ days: 3 }), { tank: tankOf({}) }).longest).toBeLessThan(3600);
  });

  test('does not care how late a start or stop is told', () => {
    const model = simulate({ days: 2 });
    const soon = drive(model, { tank: tankOf({}), sureAfter: 1 });
    const late = drive(model, { tank: tankOf({}), sureAfter: 12 });
    expect(late.runs.map((run) => run.deliveredL?.toFixed(3))).toEqual(
      soon.runs.map((run) => run.deliveredL?.toFixed(3)),
    );
  });
});

describe('waterDay', () => {
  test('has no total where a tenth of the day was not heard', () => {
    const state = newWaterState({ altitudeM: 0, tank: tankOf({}) });
    for (let s = 0; s < 20 * 3600; s += 10) handleWaterReading(state, MODEL_BEGINS_MS + s * 1000, 350);
    expect(closeTankDay(state, MODEL_BEGINS_MS, MODEL_BEGINS_MS + 86_400_000)).not.toHaveProperty('usedL');
  });
  test('has no leak without 30 quiet minutes', () => {
    const state = newWaterState({ altitudeM: 0, tank: tankOf({}) });
    for (let s = 0; s < 2400; s += 10) handleWaterReading(state, MODEL_BEGINS_MS + s * 1000, 350);
    expect(closeTankDay(state, MODEL_BEGINS_MS, MODEL_BEGINS_MS + 86_400_000)).toEqual({});
  });
});

describe('the total of a day', () => {
  const model = simulate({ days: 3 });
  const dayOf = (runs: typeof model.runs): (number | undefined)[] =>
    drive({ ...model, runs }, { tank: tankOf({}) }).days.map((day) => day.usedL);
  test('is absent where the pump ran and no current said so', () => {
    expect(dayOf([])).toEqual([undefined, undefined, undefined]);
    const firstDay = model.runs.filter((run) => run.startedMs < MODEL_BEGINS_MS + 86_400_000);
    expect(dayOf(firstDay)).toEqual([expect.any(Number), undefined, undefined]);
  });
  test('is absent where no water is known of the runs', () => {
    const { days } = drive(simulate({ days: 2, volumeL: 7.6, everyS: 5 }), {
      tank: tankOf({ volumeL: 7.6 }),
    });
    expect(days.map((day) => day.usedL)).toEqual([undefined, undefined]);
  });
  test('is said of a state that was saved before doubts were kept', () => {
    const forget = (state: WaterState, at: number): WaterState => {
      if (at === 50_000) delete state.dayQuality;
      return state;
    };
    const whole = drive(model, { tank: tankOf({}) });
    expect(drive(model, { tank: tankOf({}), between: forget }).days).toEqual(whole.days);
  });
});

describe('waterGap', () => {
  test('leaves a run that was cut without litres', () => {
    const state = newWaterState({ altitudeM: 0, tank: tankOf({}) });
    for (let s = 0; s < 600; s++) handleWaterReading(state, MODEL_BEGINS_MS + s * 1000, 350 - s * 0.1);
    handleWaterRunStarted(state, MODEL_BEGINS_MS + 590_000);
    handleWaterGap(state, MODEL_BEGINS_MS + 600_000);
    for (let s = 900; s < 960; s++) handleWaterReading(state, MODEL_BEGINS_MS + s * 1000, 350);
    expect(handleWaterRunStopped(state, MODEL_BEGINS_MS + 955_000)).toEqual({});
  });
});

describe('setWaterCard', () => {
  test('forgets what was learnt where the tank is another, and nothing where the card says the same', () => {
    const { state } = drive(simulate({ days: 3 }), { tank: tankOf({}) });
    setWaterCard(state, { altitudeM: 0, tank: tankOf({}) });
    expect(state.delivery.curve).toBeDefined();
    setWaterCard(state, { altitudeM: 0, tank: tankOf({ prechargeKpa: 193 }) });
    expect(state.delivery.curve).toBeUndefined();
  });
});

describe('startNewBaseline', () => {
  test('drops the reference that slow faults are measured by', () => {
    const { state } = drive(simulate({ days: 3 }), { tank: tankOf({}) });
    resetWaterBaseline(state);
    expect(tankAirOf(state)).toBeUndefined();
  });
});
