/** A small house and what a case needs to play it: for tests of the proving ground's own parts. */
import type { AlarmEvent, CycleEvent } from '../../../shared/api/events.ts';
import type { AlarmKind, Cause } from '../../../shared/text/en/alarms/kinds.ts';
import type { CorpusCase, Fault, NodePlan } from '../../../src/lab/score/case.ts';
import type { PlayResult } from '../../../src/lab/score/play.ts';
import { HOUSEHOLD } from '../../../src/lab/model/demand.ts';
import type { TrueCycle, WellPlan } from '../../../src/lab/plant/params.ts';

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

export const NODE: NodePlan = { everyS: 1, packS: 10, clock: 'utc', extraChannels: [] };

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

export const at = (s: number): number => FROM_MS + s * 1000;
const iso = (s: number): string => new Date(at(s)).toISOString();

export const run = (fromS: number, untilS: number, more: Partial<TrueCycle> = {}): TrueCycle => ({
  pump: 0,
  startedMs: at(fromS),
  stoppedMs: at(untilS),
  amps: 8,
  deliveredL: 40,
  ...more,
});
export const cycle = (fromS: number, untilS: number, pump = 'p1'): CycleEvent => ({
  event: 'cycle',
  well: 'house',
  pump,
  started: iso(fromS),
  stopped: iso(untilS),
  ranS: untilS - fromS,
  flags: [],
});

export const raised = (alarm: AlarmKind, s: number, causes: Cause[] = []): AlarmEvent => ({
  event: 'alarm',
  well: 'house',
  pump: 'p1',
  alarm,
  state: 'raised',
  at: iso(s),
  since: iso(s),
  priority: 'soon',
  why: `it is so since ${s}`,
  evidence: {},
  causes: causes.map((cause) => ({ cause, weight: 0.5 })),
});
export const played = (alarms: AlarmEvent[], cycles: TrueCycle[] = []): PlayResult => ({
  truth: { cycles, days: [] },
  cycles: [],
  days: [],
  alarms,
  gaps: [],
  readings: 1000,
  remarks: [],
  faults: [],
});

export const FAULT: Fault = {
  what: 'half of the air is gone',
  family: 'tank-air-lost',
  size: 1,
  alarms: ['tank-air-lost', 'short-cycling'],
  causes: ['bladder-burst'],
  beganMs: at(1000),
  knowableMs: at(2000),
  byMs: at(9000),
};
export const faultCase = (more: Partial<Fault> = {}): CorpusCase =>
  houseCase({ is: 'fault', fault: { ...FAULT, ...more } });
