/**
 * What comes between the water and the switch: a nipple that clogs, a line that freezes, a relief
 * valve too near, heat that pushes, a low cut-off that waits for a hand.
 */
import { kpaFromPsi } from '../../../../shared/units/pressure.ts';
import type { Condition } from '../../plant/params.ts';
import type { CorpusCase, Fault } from '../case.ts';
import { once, people } from './habits.ts';
import { faultyCase, growing, since, NOW_DEADLINE_MS, combined } from './case-builders.ts';
import { EVERY_5_S, setup } from './setup.ts';
import { at, hours } from './times.ts';

export function pressureFaults(): CorpusCase[] {
  return [...blockedNipples(), ...frozenLines(), nearRelief(), ...heatExpansions(), lowCutOff()];
}

/**
 * Rust closes the quarter-inch nipple: the switch learns of pressure late, so the pump starts too
 * low and stops too high. The transducer, on the tee, sees it; so the points seem to have moved
 * apart, and how far goes with how fast pressure moves.
 */
function blockedNipples(): CorpusCase[] {
  return [15, 60, 600].map((nippleBlockedS, size) => {
    const beganMs = at(14, 12);
    return faultyCase(`nipple-blocked-${size + 1}`, {
      about: 'rust closes the nipple under the switch',
      setup: setup({ name: `wicket-${size}`, seed: 680 + size }),
      days: 22,
      schedule: since(beganMs, { nippleBlockedS }),
      fault: {
        what: `the switch feels pressure ${nippleBlockedS} s late`,
        family: 'nipple-blocked',
        size: size + 1,
        alarms:
          size === 2
            ? ['over-pressure', 'switch-shift', 'long-run', 'no-water']
            : ['switch-shift', 'over-pressure'],
        causes: ['blocked-nipple', 'switch-out-of-set', 'switch-contacts-stuck'],
        beganMs,
        knowableMs: beganMs + at([2, 1, 0.5][size]!) - at(0),
        byMs: beganMs + at([7, 3, 2][size]!) - at(0),
      },
    });
  });
}

/**
 * The line to switch and gauge freezes at 05:40 on a bitter morning, while the pump runs for a
 * hose: both hold what stood, so the pump runs on when the hose is shut at 06:15, and the gauge
 * shows a run that moves nothing. An hour of it is no use of this house. The thermometer, where
 * there is one, says why, and said it the evening before. (A line that freezes at rest looks like
 * an empty house.)
 */
function frozenLines(): CorpusCase[] {
  return [false, true].map((thermometer, nth) => {
    const knowableMs = at(16, 7, 10);
    return faultyCase(`line-frozen-${nth + 1}`, {
      about: 'the line to switch and gauge freezes while the pump runs',
      setup: setup({
        name: `yarrow-${nth}`,
        seed: 690 + nth,
        draws: [once(at(16, 5, 10), 65, 0.52)],
        node: { ...EVERY_5_S, extraChannels: thermometer ? ['temperature'] : [] },
      }),
      days: 18,
      schedule: combined(
        growing(at(15, 18), at(16, 4), (share) => ({ temperatureC: 8 - 15 * share })),
        since(at(16, 5, 40), { lineFrozen: true }),
      ),
      fault: {
        what: 'the line to pressure switch and transducer is frozen',
        family: thermometer ? 'line-frozen-thermometer' : 'line-frozen',
        size: 1,
        alarms: [
          ...(thermometer ? (['freeze-risk'] as const) : []),
          'long-run',
          'sensor-fault',
          'cut-out-not-reached',
        ],
        causes: [
          'frozen',
          'transducer-fault',
          ...(thermometer ? [] : (['blocked-nipple', 'open-tap', 'leak', 'broken-pipe'] as const)),
        ],
        beganMs: thermometer ? at(15, 20) : at(16, 5, 40),
        knowableMs,
        byMs: knowableMs + NOW_DEADLINE_MS,
      },
      ...(thermometer && { allowed: ['freeze-risk', 'sensor-fault', 'long-run'] }),
    });
  });
}

/** Cut-out has crept to within 4 psi of the relief valve, which weeps soon. */
function nearRelief(): CorpusCase {
  const beganMs = at(14, 12);
  return faultyCase('relief-near-1', {
    about: 'cut-out stands 4 psi under the relief valve',
    setup: setup({ name: 'yew-bank', seed: 700 }),
    days: 19,
    schedule: since(beganMs, { cutOutShiftKpa: kpaFromPsi(11.5) }),
    fault: {
      what: 'each run ends within 4 psi of the relief valve',
      family: 'relief-near',
      size: 1,
      alarms: ['over-pressure', 'switch-shift'],
      causes: ['switch-out-of-set'],
      beganMs,
      knowableMs: beganMs + hours(6),
      byMs: beganMs + hours(24),
    },
  });
}

/**
 * A tiny tank and a large heater behind a check valve: 200 L warmed by 45 C grow by 3 L, and a
 * two-gallon tank has little room for them. Pressure climbs at rest, without current, well over
 * cut-out.
 */
function heatExpansions(): CorpusCase[] {
  return [1.6, 3].map((litres, size) => {
    const beganMs = at(14);
    const forMin = 60;
    const schedule = (tMs: number): Partial<Condition> => {
      const hour = ((tMs - beganMs) / hours(1)) % 24;
      const heats = tMs >= beganMs && (Math.floor(hour) === 1 || Math.floor(hour) === 23);
      return heats ? { heatExpansionLPerS: litres / (forMin * 60) } : {};
    };
    return faultyCase(`heat-expansion-${size + 1}`, {
      about: 'the water heater warms at night and its water has nowhere to go',
      setup: setup({
        name: `zinnia-${size}`,
        seed: 710 + size,
        size: 'halfHp',
        tankGal: 2,
        fixtures: people(2),
      }),
      days: 22,
      schedule,
      fault: {
        what: `${litres} L of expansion each night, into a tank of two gallons`,
        family: 'heat-expansion',
        size: size + 1,
        alarms: ['over-pressure'],
        causes: ['heat-expansion'],
        beganMs,
        knowableMs: at(15, 3),
        byMs: at(19),
      } satisfies Fault,
      allowed: ['short-cycling'],
    });
  });
}

/**
 * A hydrant is opened for eight minutes and takes more than the pump gives. At 20 psi the switch
 * cuts off and stays open until somebody holds its lever: pressure stands at nothing and no current
 * flows. Its low cut-off stands on the card.
 */
function lowCutOff(): CorpusCase {
  const lowCutOffPsi = 20;
  const base = setup({
    name: 'aldbury',
    seed: 720,
    card: { switch: { cutIn: '40 psi', cutOut: '60 psi', lowCutOff: `${lowCutOffPsi} psi` } },
    draws: [once(at(16, 13), 8, 1.8)],
  });
  const { control } = base.plan;
  const knowableMs = at(16, 13, 3);
  return faultyCase('low-cut-off-1', {
    about: 'the switch cuts off at low pressure and waits for a hand',
    setup:
      control.is === 'pressure-switch'
        ? {
            ...base,
            plan: { ...base.plan, control: { ...control, lowCutOffKpa: kpaFromPsi(lowCutOffPsi) } },
          }
        : base,
    days: 18,
    fault: {
      what: 'the low cut-off of the switch has opened and stays open',
      family: 'low-cut-off',
      size: 1,
      alarms: ['no-start', 'no-water'],
      causes: ['low-pressure-cut-off'],
      beganMs: at(16, 13),
      knowableMs,
      byMs: knowableMs + NOW_DEADLINE_MS,
    },
    allowed: ['no-water'],
  });
}
