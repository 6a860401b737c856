/**
 * The sensors: a transducer that drifts, sticks or leaves its span, a clamp that slips off. The
 * well is sound, and no alarm about the well is right: what can't both be true at once (water flows
 * and nothing is pumped, a pump fills and no pressure moves) is the proof.
 */
import { kpaFromPsi } from '../../../../shared/units/pressure.ts';
import type { CorpusCase } from '../case.ts';
import { people } from './habits.ts';
import { faultyCase, growing, since } from './case-builders.ts';
import { EVERY_1_S, EVERY_5_S, setup } from './setup.ts';
import { at, hours } from './times.ts';

export function sensorFaults(): CorpusCase[] {
  return [...stuckGauges(), ...outOfSpan(), ...drifts(), ...clampOff(), roundTwoConductors()];
}

/**
 * The reading stays where it was. Two runs that move nothing prove it: half a day with a household
 * at home.
 */
function stuckGauges(): CorpusCase[] {
  return [EVERY_1_S, EVERY_5_S].map((node, nth) => {
    const beganMs = at(15, 11);
    return faultyCase(`gauge-stuck-${nth + 1}`, {
      about: 'the transducer sticks at what it read last',
      setup: setup({ name: `oakley-${nth}`, seed: 1100 + nth, node }),
      days: 19,
      schedule: since(beganMs, { transducerStuck: true }),
      fault: {
        what: 'the transducer shows the same whatever the pressure is',
        family: 'gauge-stuck',
        size: 1,
        alarms: ['sensor-fault'],
        causes: ['transducer-fault', 'frozen'],
        beganMs,
        knowableMs: beganMs + hours(12),
        byMs: beganMs + hours(36),
      },
    });
  });
}

/**
 * The loop is open (low), shorted (high), or the node can't read it (bad). Some minutes without a
 * value are enough.
 */
function outOfSpan(): CorpusCase[] {
  return ([1, 2, 3] as const).map((transducerOut, nth) => {
    const beganMs = at(15, 13);
    return faultyCase(`gauge-out-of-span-${nth + 1}-${['low', 'high', 'bad'][nth]!}`, {
      about: 'the wire of the transducer is chewed through',
      setup: setup({ name: `priory-${nth}`, seed: 1110 + nth }),
      days: 18,
      schedule: since(beganMs, { transducerOut }),
      fault: {
        what: 'the transducer is out of its span',
        family: 'gauge-out-of-span',
        size: 1,
        alarms: ['sensor-fault'],
        causes: ['transducer-fault'],
        beganMs,
        knowableMs: beganMs + hours(0.1),
        byMs: beganMs + hours(3),
      },
    });
  });
}

/**
 * Zero drifts by up to 4 or 12 psi within a month. Both points move together: a switch whose spring
 * settles would look the same, and both may be named. Known at 3 psi.
 */
function drifts(): CorpusCase[] {
  return [5, 12, -9].map((psi, nth) => {
    const beganMs = at(14);
    const untilMs = at(44);
    const whenAt = (psiOff: number): number => beganMs + ((untilMs - beganMs) * psiOff) / Math.abs(psi);
    return faultyCase(`gauge-drifts-${nth + 1}`, {
      about: `the transducer's zero drifts by ${psi} psi within a month`,
      setup: setup({ name: `rushton-${nth}`, seed: 1120 + nth, fixtures: people(3) }),
      days: 52,
      schedule: growing(beganMs, untilMs, (share) => ({ transducerOffsetKpa: kpaFromPsi(psi) * share })),
      fault: {
        what: `the transducer reads ${psi} psi off`,
        family: psi > 0 ? 'gauge-drifts-up' : 'gauge-drifts-down',
        size: psi === 12 ? 2 : 1,
        alarms: ['switch-shift', 'sensor-fault', ...(psi === 12 ? (['over-pressure'] as const) : [])],
        causes: ['transducer-fault', 'switch-out-of-set'],
        beganMs,
        knowableMs: whenAt(3),
        byMs: whenAt(4.5) + hours(36),
      },
    });
  });
}

/**
 * The clamp slips off: pressure rises from cut-in to cut-out and no current flows. Water can't rise
 * by itself, so two such fills are proof. `no-start` would be wrong as soon as pressure has risen.
 */
function clampOff(): CorpusCase[] {
  return [EVERY_1_S, EVERY_5_S].map((node, nth) => {
    const beganMs = at(15, 9);
    return faultyCase(`clamp-off-${nth + 1}`, {
      about: 'the clamp has slipped off its wire',
      setup: setup({ name: `selby-${nth}`, seed: 1130 + nth, node, fixtures: people(5) }),
      days: 19,
      schedule: since(beganMs, { clampOff: true }),
      fault: {
        what: 'the clamp reads nothing while the pump runs',
        family: 'clamp-off',
        size: 1,
        alarms: ['sensor-fault'],
        causes: ['clamp-off'],
        beganMs,
        knowableMs: beganMs + hours(12),
        byMs: beganMs + hours(36),
      },
    });
  });
}

/**
 * After work in the panel the clamp sits round both conductors, whose currents cancel but for a few
 * per cent.
 */
function roundTwoConductors(): CorpusCase {
  const beganMs = at(15, 9);
  return faultyCase('clamp-round-two-1', {
    about: 'the clamp is put back round both conductors',
    setup: setup({ name: 'thirlby', seed: 1140, fixtures: people(5) }),
    days: 19,
    schedule: since(beganMs, { clampGain: 0.02 }),
    fault: {
      what: 'the clamp sits round two conductors and reads about nothing',
      family: 'clamp-round-two',
      size: 1,
      alarms: ['sensor-fault', 'amps-low'],
      causes: ['clamp-off'],
      beganMs,
      knowableMs: beganMs + hours(12),
      byMs: beganMs + hours(36),
    },
  });
}
