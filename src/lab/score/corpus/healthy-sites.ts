/**
 * Sound wells at sites that are not: dark for hours, poor volts, generators, other loads under the
 * clamp; and visits done as they should be. What is true beside (the site was dark) may be told;
 * nothing of the well.
 */
import { DAY_MS, MINUTE_MS } from '../../../../shared/units/duration.ts';
import { kpaFromPsi } from '../../../../shared/units/pressure.ts';
import type { Condition } from '../../plant/params.ts';
import { seeded } from '../../model/random.ts';
import type { CorpusCase, NodePlan } from '../case.ts';
import { cattle, people } from './habits.ts';
import { healthyCase, combined, type Acts } from './case-builders.ts';
import { EVERY_5_S, setup } from './setup.ts';
import { dayOf, hourOf, hours, midnight, minutes, spansOn } from './times.ts';

const FROM_MS = midnight(3, 1);
const DAYS = 120;

export function healthySites(variant: number): CorpusCase[] {
  return [...powerCuts(variant), ...supplies(variant), ...otherLoads(variant), ...visits(variant)];
}

const DEAD: Partial<Condition> = { circuitDead: true };
const UNCHANGED: Partial<Condition> = {};

/**
 * The site goes dark some times: what was told of power and silence is true, and nothing else is.
 */
function powerCuts(variant: number): CorpusCase[] {
  return [true, false].map((lastGasp, nth) => {
    const cuts = [...spansOn(FROM_MS, [12, 31, 60], 14, 0.7), ...spansOn(FROM_MS, [45, 77], 3, 5)].sort(
      (a, b) => a.fromMs - b.fromMs,
    );
    return healthyCase(`healthy-power-cuts-${lastGasp ? 'last-gasp' : 'silent'}-${variant}`, {
      about: `the site is dark five times in a quarter; the node ${lastGasp ? 'says so' : 'does not say so'}`,
      setup: setup({
        name: `yarm-${nth}-${variant}`,
        seed: 4010 + 100 * variant + nth,
        node: { ...EVERY_5_S, powerCuts: cuts.map((cut) => ({ ...cut, lastGasp })) },
      }),
      fromMs: FROM_MS,
      days: DAYS,
      schedule: (tMs) => (cuts.some((cut) => tMs >= cut.fromMs && tMs < cut.untilMs) ? DEAD : UNCHANGED),
      allowed: ['power-lost', 'node-silent'],
    });
  });
}

/**
 * The end of a long rural line: low each evening, dips of a minute, within 10 % all but for the
 * dips.
 */
function ruralVolts(seed: number): (tMs: number) => Partial<Condition> {
  return (tMs) => {
    const minute = Math.floor(tMs / MINUTE_MS);
    const hour = hourOf(tMs);
    const evening = hour >= 17 && hour < 21 ? 0.025 : 0;
    const dips = seeded(seed * 7919 + minute).next() < 0.0006;
    return { voltRatio: dips ? 0.87 : 0.975 - evening };
  };
}

/** Two days on a generator in a storm: 57 to 58 Hz and 4 % low, with a blink at each change. */
function generatorDays(tMs: number): Partial<Condition> {
  const day = dayOf(tMs) - dayOf(FROM_MS);
  const on = day === 30 || day === 31 || day === 58;
  return on ? { voltRatio: 0.96, frequencyRatio: 0.96 } : UNCHANGED;
}

function supplies(variant: number): CorpusCase[] {
  return ['rural-volts', 'rural', 'generator'].map((way, nth) => {
    const seed = 4050 + 100 * variant + nth;
    const node: NodePlan = { ...EVERY_5_S, extraChannels: way === 'rural-volts' ? ['voltage'] : [] };
    return healthyCase(`healthy-${way}-${variant}`, {
      about:
        way === 'generator'
          ? 'three days on a generator, volts and frequency low'
          : 'the end of a long rural line, volts low in the evening, with dips',
      setup: setup({ name: `crewe-${nth}-${variant}`, seed, node, fixtures: people(5) }),
      fromMs: FROM_MS,
      days: DAYS,
      schedule: way === 'generator' ? generatorDays : ruralVolts(seed),
    });
  });
}

/**
 * Something else on the clamped conductor: a heat tape of 2 A by night, a lamp of 0.6 A. Where the
 * card says so all is explained; where it does not, current without a pump may be asked about as a
 * matter of clamp and card, and as nothing else.
 */
function otherLoads(variant: number): CorpusCase[] {
  const ways = [
    { name: 'heater-on-card', amps: 2.2, card: 'heat tape' },
    { name: 'lamp-on-card', amps: 0.6, card: 'lamp' },
    { name: 'heater-unsaid', amps: 2.2 },
  ];
  return ways.map(({ name, amps, card }, nth) => {
    const load: Partial<Condition> = { otherAmps: amps };
    const base = setup({ name: `delph-${nth}-${variant}`, seed: 4060 + 100 * variant + nth });
    const pump = base.card['pump'] as Record<string, unknown>;
    return healthyCase(`healthy-${name}-${variant}`, {
      about: `${amps} A of something else under the clamp at night, ${card === undefined ? 'not said on the card' : 'as the card says'}`,
      setup: {
        ...base,
        card: card === undefined ? base.card : { ...base.card, pump: { ...pump, alsoOnClamp: card } },
      },
      fromMs: FROM_MS,
      days: DAYS,
      schedule: (tMs) => (atNight(tMs) ? load : UNCHANGED),
      ...(card === undefined && { allowed: ['sensor-fault' as const] }),
    });
  });
}

/**
 * Visits done as they should be: opened, worked, closed, written down. A new pump, a switch and
 * tank set otherwise, a card that is filled in at last: nothing is to be raised, before or after.
 */
function visits(variant: number): CorpusCase[] {
  const visitMs = FROM_MS + 30 * DAY_MS + hours(9);
  const doneMs = visitMs + hours(3);
  const visit = (well: string, more: Acts): Acts => [
    { atMs: visitMs, act: { kind: 'visit-opened', well } },
    ...more,
    { atMs: doneMs, act: { kind: 'visit-closed', well, newBaseline: true } },
  ];
  const pump = setup({ name: `easton-0-${variant}`, seed: 4070 + 100 * variant });
  const points = setup({ name: `easton-1-${variant}`, seed: 4071 + 100 * variant });
  const card = setup({
    name: `easton-2-${variant}`,
    seed: 4072 + 100 * variant,
    cardKnowledge: 'name',
    use: 'stock',
    fixtures: cattle(20),
  });
  const full = setup({ name: `easton-2-${variant}`, seed: 4072 + 100 * variant, use: 'stock' });
  const lower = kpaFromPsi(-10);
  return [
    healthyCase(`healthy-visit-new-pump-${variant}`, {
      about: 'a tired pump is replaced at a visit',
      setup: pump,
      fromMs: FROM_MS,
      days: DAYS,
      schedule: (tMs) => (tMs < visitMs ? { worn: 0.12 } : tMs < doneMs - hours(1) ? DEAD : UNCHANGED),
      acts: visit(`easton-0-${variant}`, []),
    }),
    healthyCase(`healthy-visit-switch-${variant}`, {
      about: 'a visit sets the switch to 30/50 and the air to match',
      setup: points,
      fromMs: FROM_MS,
      days: DAYS,
      schedule: combined((tMs) =>
        tMs < visitMs + hours(1)
          ? UNCHANGED
          : { cutInShiftKpa: lower, cutOutShiftKpa: lower, airLost: 10 / (38 + 14.2) },
      ),
      acts: visit(`easton-1-${variant}`, [
        {
          atMs: doneMs - minutes(5),
          act: {
            kind: 'card-changed',
            card: {
              ...points.card,
              switch: { cutIn: '30 psi', cutOut: '50 psi' },
              tank: { kind: 'captive-air', volume: '62 gal', precharge: '28 psi' },
            },
          },
        },
      ]),
    }),
    healthyCase(`healthy-card-filled-in-${variant}`, {
      about: 'a card with only a name is filled in after a month',
      setup: card,
      fromMs: FROM_MS,
      days: DAYS,
      acts: [{ atMs: visitMs, act: { kind: 'card-changed', card: full.card } }],
    }),
  ];
}

/** From six in the evening to eight in the morning. */
function atNight(tMs: number): boolean {
  const hour = hourOf(tMs);
  return hour >= 18 || hour < 8;
}
