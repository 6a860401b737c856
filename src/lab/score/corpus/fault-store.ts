/**
 * Stores and troughs: no pressure cycle to watch, so what counts is that the runs which always come
 * do come, and that the store stands where it always does. Cattle without water in July are an
 * emergency by evening.
 */
import type { CorpusCase } from '../case.ts';
import { cattle } from './habits.ts';
import { faultyCase, growing, since, NOW_DEADLINE_MS } from './case-builders.ts';
import { EVERY_10_S, EVERY_5_S } from './setup.ts';
import { floatStore, timerStore } from './stores.ts';
import { at } from './times.ts';

export function storeFaults(): CorpusCase[] {
  return [...floatHangs(), ...timerFails(), ...storeLeaks(), wornAtStore(), floatStuckOn()];
}

/**
 * The float hangs (or the breaker is open): no run comes. The herd drinks 3.6 m3 a day and a fill
 * is 0.8 m3, so four runs a day come by daylight and none by night. Ten hours of daylight without a
 * run, at the latest by the evening, is no habit. With a gauge in the store it is known as soon as
 * it stands under where the float always fills: 30 cm lower by afternoon.
 */
function floatHangs(): CorpusCase[] {
  const beganMs = at(17, 5);
  return [true, false].map((gauge, nth) => {
    const knowableMs = gauge ? at(17, 14) : at(17, 20);
    return faultyCase(`float-hangs-${nth + 1}-${gauge ? 'gauge' : 'no-gauge'}`, {
      about: 'the float hangs and the trough is not filled any more',
      setup: floatStore({
        name: `jarrow-${nth}`,
        seed: 1000 + nth,
        fixtures: cattle(60),
        node: { ...EVERY_5_S, withoutPressure: true, extraChannels: gauge ? ['store'] : [] },
      }),
      days: 20,
      schedule: since(beganMs, { circuitDead: true }),
      fault: {
        what: 'no run comes any more: float or supply',
        family: `float-hangs-${gauge ? 'gauge' : 'no-gauge'}`,
        size: 1,
        alarms: gauge ? ['store-low', 'no-run'] : ['no-run'],
        causes: ['switch-contacts-stuck', 'breaker-open', 'power-lost', 'overload-tripping', 'stuck-rotor'],
        beganMs,
        knowableMs,
        byMs: gauge ? at(17, 22) : at(18, 12),
      },
      allowed: ['no-run', 'store-low'],
    });
  });
}

/**
 * A timer runs at 05:00 and 17:00 each day. The run that is due and does not come is missed within
 * the hour.
 */
function timerFails(): CorpusCase[] {
  const beganMs = at(17, 12);
  const knowableMs = at(17, 18);
  return ['stock', 'irrigation'].map((use, nth) =>
    faultyCase(`timer-fails-${nth + 1}-${use}`, {
      about: 'the timer has lost its setting in a thunderstorm',
      setup: timerStore(
        {
          name: `kirkby-${nth}`,
          seed: 1010 + nth,
          fixtures: cattle(45),
          use,
          node: { ...EVERY_10_S, withoutPressure: true },
        } as Parameters<typeof timerStore>[0],
        [5, 17],
        50,
      ),
      days: 20,
      schedule: since(beganMs, { circuitDead: true }),
      fault: {
        what: 'the runs at five in the morning and in the afternoon do not come',
        family: `timer-fails-${use}`,
        size: 1,
        alarms: ['no-run'],
        causes: ['breaker-open', 'power-lost', 'switch-contacts-stuck', 'overload-tripping', 'stuck-rotor'],
        beganMs,
        knowableMs,
        // One run missed may be somebody at the switch; the second is not.
        byMs: at(18, 8),
      },
    }),
  );
}

/**
 * The cistern loses more than the pump lifts: lower each hour than it ever stood, though the pump
 * runs.
 */
function storeLeaks(): CorpusCase[] {
  return [0.95, 1.3].map((storeLossLPerS, size) => {
    const beganMs = at(16, 1);
    // Full, it has 0.4 m to go until the pump starts (0.72 L/s), and 0.3 m more until it stands
    // clearly under all that it ever was.
    const lossS = 800 / storeLossLPerS + 600 / (storeLossLPerS - 0.72);
    const knowableMs = beganMs + 1000 * lossS;
    return faultyCase(`store-leaks-${size + 1}`, {
      about: 'a trough is tipped over and the cistern runs out',
      setup: floatStore({
        name: `larch-${size}`,
        seed: 1020 + size,
        fixtures: cattle(40),
        node: { ...EVERY_5_S, withoutPressure: true, extraChannels: ['store'] },
      }),
      days: 19,
      schedule: since(beganMs, { storeLossLPerS }),
      fault: {
        what: `${storeLossLPerS} L/s run out of the store`,
        family: 'store-leaks',
        size: size + 1,
        alarms: ['store-low', 'long-run'],
        causes: ['leak', 'broken-pipe', 'open-tap'],
        beganMs,
        knowableMs,
        byMs: knowableMs + NOW_DEADLINE_MS,
      },
      allowed: ['long-run', 'store-low'],
    });
  });
}

/** Only the clamp to go by: fills of the same 0.8 m3 take longer and longer. */
function wornAtStore(): CorpusCase {
  const beganMs = at(14);
  return faultyCase('store-pump-wears-1', {
    about: 'the pump of a trough wears by a third within six weeks',
    setup: floatStore({
      name: 'moss-side',
      seed: 1030,
      fixtures: cattle(50),
      node: { ...EVERY_5_S, withoutPressure: true },
    }),
    days: 66,
    schedule: growing(beganMs, at(56), (share) => ({ worn: 0.33 * share })),
    fault: {
      what: 'impellers worn by a third within six weeks',
      family: 'store-pump-wears',
      size: 1,
      alarms: ['slow-fill', 'amps-low', 'long-run'],
      causes: ['worn-pump', 'sand', 'low-well'],
      beganMs,
      knowableMs: at(33),
      byMs: at(50),
    },
  });
}

/**
 * The float hangs the other way: the pump runs on and the cistern overflows. A fill never took
 * above an hour.
 */
function floatStuckOn(): CorpusCase {
  const beganMs = at(16, 8);
  const knowableMs = at(16, 16);
  return faultyCase('float-stuck-on-1', {
    about: 'the float does not open any more; the cistern overflows',
    setup: floatStore({
      name: 'nab-end',
      seed: 1040,
      fixtures: cattle(60),
      node: { ...EVERY_5_S, withoutPressure: true },
    }),
    days: 19,
    schedule: since(beganMs, { stuckContacts: true }),
    fault: {
      what: 'the float does not open: the pump runs on',
      family: 'float-stuck-on',
      size: 1,
      alarms: ['long-run'],
      causes: ['switch-contacts-stuck', 'leak', 'broken-pipe', 'open-tap'],
      beganMs,
      knowableMs,
      byMs: knowableMs + NOW_DEADLINE_MS,
    },
  });
}
