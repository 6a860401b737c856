/** The card of a drawn well as its owner writes it: from all of it to the name alone. */
import { gpmFromLPerS } from '../../../../shared/units/water.ts';
import { serviceAmps } from '../motor.ts';
import type { SecondPlan } from '../plan.ts';
import type { People } from './draw-people.ts';
import { RELIEF_OVER_PSI, type ControlKind } from './control-kinds.ts';

export type CardKnowledge = 'all' | 'no-tank' | 'no-switch' | 'name';

interface CardFacts {
  hp: number;
  points: readonly [cutInPsi: number, cutOutPsi: number];
  tankGal: number;
  known: CardKnowledge;
  kind: ControlKind;
  people: People;
  /** Of a plain tank none. */
  prechargePsi?: number;
}

/** Zones without summer time, by their offset. */
const ZONES: Record<number, string> = {
  [-7]: 'America/Phoenix',
  [-5]: 'America/Jamaica',
  [0]: 'Africa/Accra',
  [2]: 'Africa/Johannesburg',
  [10]: 'Australia/Brisbane',
};

export function cardOf(plan: SecondPlan, facts: CardFacts): Record<string, unknown> {
  const { known, kind, people, points } = facts;
  if (known === 'name') return { well: plan.name };
  const circuit = { control: kind, pump: pumpCard(plan, facts.hp) };
  return {
    well: plan.name,
    timeZone: ZONES[plan.utcOffsetH] ?? 'UTC',
    altitude: `${plan.altitudeM} m`,
    use: people.use,
    ...(people.stockHeads !== undefined && { stockHeads: people.stockHeads }),
    ...(plan.pumps.how === 'one' ? circuit : { pumps: { p1: circuit, p2: circuit } }),
    ...(known !== 'no-switch' && switchCard(plan, facts)),
    ...(known !== 'no-tank' && plan.tank && { tank: tankCard(facts) }),
    ...(known === 'all' && plan.tank && { relief: `${points[1] + RELIEF_OVER_PSI} psi` }),
  };
}

function pumpCard(plan: SecondPlan, hp: number): Record<string, unknown> {
  const [pump] = plan.pumps.pumps;
  const { phase, volts, bestLPerS, aboveGround } = pump!;
  return {
    kind: aboveGround === true ? 'jet' : 'submersible',
    motor: `${hp} hp`,
    volts: `${volts} V`,
    phase,
    ...(phase === 1 && aboveGround !== true && { wires: 3 }),
    maxAmps: `${serviceAmps(pump!).toFixed(1)} A`,
    rated: `${Math.round(gpmFromLPerS(bestLPerS))} gpm`,
    ...(plan.protector && { protector: { restart: `${plan.protector.restartS / 60} min` } }),
    ...(aboveGround !== true && { setDepth: `${Math.round(plan.aquifer.intakeM)} m` }),
  };
}

function switchCard({ control }: SecondPlan, { points: [cutIn, cutOut], kind }: CardFacts): object {
  if (kind !== 'pressure-switch' && kind !== 'constant-pressure-valve') return {};
  const hasLow = control.is === 'pressure-switch' && control.lowCutOffKpa !== undefined;
  return {
    switch: {
      cutIn: `${cutIn} psi`,
      cutOut: `${cutOut} psi`,
      ...(hasLow && { lowCutOff: `${cutIn - 10} psi` }),
    },
  };
}

function tankCard({ tankGal, prechargePsi }: CardFacts): object {
  const volume = `${tankGal} gal`;
  if (prechargePsi === undefined) return { kind: 'plain', volume };
  return { kind: 'captive-air', volume, precharge: `${prechargePsi} psi` };
}
