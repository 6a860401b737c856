/** A small house and what a case needs to play it: for tests of the proving ground's own parts. */
import type { CorpusCase, NodePlan } from '../../../src/proving/ground/case.ts';
import { HOUSEHOLD } from '../../../src/proving/model/demand.ts';
import type { WellPlan } from '../../../src/proving/plant/params.ts';

export const FROM_MS = Date.UTC(2026, 2, 2);

export const HOUSE: WellPlan = {
  name: 'house',
  seed: 11,
  utcOffsetH: 0,
  altitudeM: 0,
  pumps: {
    how: 'one',
    pumps: [
      {
        shutOffHeadM: 92,
        runOutLPerS: 0.92,
        idleFlowAmps: 5.2,
        fullFlowAmps: 8.3,
        phase: 1,
        volts: 230,
        frictionM: 6,
        dropPipeL: 20,
      },
    ],
  },
  hole: { staticLevelM: 22, intakeM: 48, yieldLPerSPerM: 0.16, boreLPerM: 18 },
  tank: { kind: 'captive-air', volumeL: 160, prechargeKpa: 262 },
  control: { is: 'pressure-switch', cutInKpa: 276, cutOutKpa: 414, jitterKpa: 1 },
  fixtures: HOUSEHOLD,
  clamp: { noiseA: 0.012, stepA: 0.01, gain: 1, maxA: 60 },
  transducer: { noiseKpa: 0.8, stepKpa: 0.1, offsetKpa: 0 },
};

export const NODE: NodePlan = { everyS: 1, packS: 10, clock: 'utc', also: [] };

export const CARD = {
  well: 'house',
  control: 'pressure-switch',
  pump: { kind: 'submersible', volts: '230 V', phase: 1 },
  switch: { cutIn: '40 psi', cutOut: '60 psi' },
  tank: { kind: 'captive-air', volume: '160 L', precharge: '38 psi' },
};

/** A healthy day of the house, but for what is named. */
export function houseCase(more: Partial<CorpusCase> = {}): CorpusCase {
  return {
    name: 'house',
    about: 'a house in which nothing happens',
    is: 'healthy',
    plan: HOUSE,
    card: CARD,
    node: NODE,
    fromMs: FROM_MS,
    days: 1,
    ...more,
  };
}
