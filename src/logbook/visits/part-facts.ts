/**
 * What is known of each part for whoever loads a truck, and what nobody wrote down. Only what was
 * written or measured is said; no size is guessed from another.
 */
import { formatQuantity, type UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import type { Dimension } from '../../../shared/quantity/units.ts';
import { formatDiameter } from '../../../shared/text/en/format.ts';
import type { Card, PumpCard } from '../../core/domain/card.ts';
import type { ServicePart } from './parts-for-cause.ts';
import { prechargeTarget } from '../readings/precharge-target.ts';

/** What was measured, where it was. */
export interface PartMeasurements {
  cutInKpa?: number;
  cutOutKpa?: number;
  /** The newest reading of a capacitor, as it was written. */
  capacitor?: string;
  staticLevel?: string;
}

/** Gathered in the order in which it is read out. */
export interface PartFacts {
  units: UnitSystem;
  /** What is known, ready to be read: "1 hp", "230 V". */
  known: string[];
  /** What should be known and is not. */
  unknown: string[];
}

export interface PartFactsInput {
  card: Card;
  measured?: PartMeasurements;
}

export function collectPartFacts(
  part: ServicePart,
  units: UnitSystem,
  input: PartFactsInput,
  pump: PumpCard | undefined,
): PartFacts {
  const facts: PartFacts = { units, known: [], unknown: [] };
  FACT_COLLECTORS[part](facts, input, pump);
  return facts;
}

/** `name` is what is missing where there is no value; without it nothing is missed. */
function addFact(facts: PartFacts, value: string | false | undefined, name?: string): void {
  if (value !== undefined && value !== false && value !== '') facts.known.push(value);
  else if (name !== undefined) facts.unknown.push(name);
}

interface FactText {
  prefix?: string;
  suffix?: string;
  missingName?: string;
}

function addQuantity(
  facts: PartFacts,
  value: number | undefined,
  dimension: Dimension,
  text: FactText,
): void {
  const { prefix = '', suffix = '', missingName } = text;
  addFact(
    facts,
    value === undefined ? undefined : `${prefix}${formatFact(facts, value, dimension)}${suffix}`,
    missingName,
  );
}

function formatFact(facts: PartFacts, value: number, dimension: Dimension): string {
  return formatQuantity(value, dimension, facts.units);
}

/**
 * Bores of pipes and casings are called by inches in one part of the world and by mm in the other.
 */
function addDiameter(facts: PartFacts, m: number | undefined, { prefix = '', missingName }: FactText): void {
  addFact(facts, m === undefined ? undefined : `${prefix}${formatDiameter(m, facts.units)}`, missingName);
}

type FactCollector = (facts: PartFacts, question: PartFactsInput, pump: PumpCard | undefined) => void;

const FACT_COLLECTORS: Record<ServicePart, FactCollector> = {
  pump: collectPumpFacts,
  'drop-pipe': collectDropPipeFacts,
  'control-box': collectControlBoxFacts,
  switch: collectSwitchFacts,
  tank: collectTankFacts,
  fittings: (facts, { card }) => {
    addDiameter(facts, card.description?.hole.dropPipeDiameterM, { prefix: 'drop pipe ' });
    addFact(facts, undefined, 'size and kind of the pipe and thread at the place of work');
  },
  electrical: (facts, { card }) => {
    const electrical = card.description?.electrical;
    addFact(facts, electrical?.panel && `panel: ${electrical.panel}`);
    addFact(facts, electrical?.breaker && `breaker ${electrical.breaker}`, 'which breaker');
    addQuantity(facts, electrical?.breakerA, 'current', {
      prefix: 'breaker of ',
      missingName: 'the breaker’s size',
    });
    addFact(facts, electrical?.disconnect && `disconnect: ${electrical.disconnect}`);
  },
  sensors: (facts) => addFact(facts, undefined, 'spans of transducer and clamp: see the node’s own papers'),
  level: (facts, { card, measured }) => {
    const level = card.description?.hole.staticLevelM;
    addQuantity(facts, level, 'length', { prefix: 'static level on the card ' });
    addFact(facts, measured?.staticLevel && `static level read last: ${measured.staticLevel}`);
    if (level === undefined && measured?.staticLevel === undefined) addFact(facts, undefined, 'static level');
    addDiameter(facts, card.description?.hole.casingDiameterM, {
      prefix: 'casing ',
      missingName: 'casing size',
    });
  },
};

function collectPumpFacts(facts: PartFacts, { card }: PartFactsInput, pump: PumpCard | undefined): void {
  const described = pump && card.description?.pumps[pump.id];
  const name = [described?.maker, described?.model].filter((word) => word !== undefined).join(' ');
  addFact(facts, name === '' ? undefined : name, 'maker and model');
  addFact(facts, pump?.kind);
  addQuantity(facts, pump?.motorW, 'power', { missingName: 'motor size' });
  addQuantity(facts, pump?.volts, 'voltage', { missingName: 'volts' });
  addFact(facts, pump?.phase && (pump.phase === 1 ? 'single-phase' : 'three-phase'), 'phases');
  if (pump?.phase !== 3) addFact(facts, pump?.wires && `${pump.wires}-wire`, 'two wires or three');
  addQuantity(facts, pump?.ratedLPerS, 'flow', { prefix: 'rated ', missingName: 'rated flow' });
  addQuantity(facts, pump?.maxAmps, 'current', { prefix: 'service-factor amps ' });
  addFact(facts, pump?.installed && `installed ${pump.installed}`);
  addDiameter(facts, card.description?.hole.casingDiameterM, {
    prefix: 'casing ',
    missingName: 'casing size, which the pump must fit',
  });
}

function collectDropPipeFacts(facts: PartFacts, { card }: PartFactsInput, pump: PumpCard | undefined): void {
  if (pump?.kind === 'jet' || pump?.kind === 'booster') {
    addFact(facts, `a ${pump.kind} pump stands above ground: nothing to pull`);
    return;
  }
  const hole = card.description?.hole;
  addQuantity(facts, pump?.setDepthM, 'length', {
    suffix: ' to pull (the set depth)',
    missingName: 'set depth, so the length to pull',
  });
  addDiameter(facts, hole?.dropPipeDiameterM, { prefix: '', missingName: 'pipe size' });
  addFact(facts, hole?.dropPipeMaterial, 'what the pipe is of');
  for (const valve of hole?.checkValves ?? [])
    addFact(
      facts,
      'depthM' in valve
        ? `check valve at ${formatFact(facts, valve.depthM, 'length')}`
        : `check valve ${valve.beside}`,
    );
  addFact(
    facts,
    card.description?.electrical.cable && `cable: ${card.description.electrical.cable}`,
    'cable',
  );
}

function collectControlBoxFacts(
  facts: PartFacts,
  { card, measured }: PartFactsInput,
  pump: PumpCard | undefined,
): void {
  const described = pump && card.description?.pumps[pump.id];
  addFact(facts, described?.controlBox);
  addFact(facts, described?.driveModel && `drive: ${described.driveModel}`);
  if (pump?.phase === 3) addFact(facts, 'three-phase motor: no start parts');
  else if (pump?.wires === 2)
    addFact(facts, 'two-wire motor: its start parts are in the motor, and there is no box for them');
  else {
    if (described?.controlBox === undefined) addFact(facts, undefined, 'make and model of the control box');
    addQuantity(facts, pump?.motorW, 'power', {
      prefix: 'for ',
      missingName: 'motor size, which box and capacitor must match',
    });
    addQuantity(facts, pump?.volts, 'voltage', { missingName: 'volts' });
    addFact(
      facts,
      measured?.capacitor && `capacitor read as ${measured.capacitor}`,
      'the capacitor’s uF and volts, as its own plate says',
    );
  }
}

function collectSwitchFacts(
  facts: PartFacts,
  { card, measured }: PartFactsInput,
  pump: PumpCard | undefined,
): void {
  const { cutInKpa, cutOutKpa, lowCutOffKpa } = card.switch;
  if (pump && pump.control !== 'pressure-switch')
    addFact(facts, `control: ${pump.control.replaceAll('-', ' ')}`);
  const pair = (low: number | undefined, high: number | undefined): string | undefined =>
    low === undefined || high === undefined
      ? undefined
      : `${formatFact(facts, low, 'pressure')} to ${formatFact(facts, high, 'pressure')}`;
  const written = pair(cutInKpa, cutOutKpa);
  addFact(facts, written && `range ${written}`, 'the switch’s range as written');
  const seen = pair(measured?.cutInKpa, measured?.cutOutKpa);
  addFact(facts, seen && `measured ${seen}`);
  addQuantity(facts, lowCutOffKpa, 'pressure', { prefix: 'with low-pressure cut-off at ' });
  addFact(facts, undefined, 'the nipple under the switch');
}

function collectTankFacts(facts: PartFacts, { card, measured }: PartFactsInput): void {
  const described = card.description?.tank;
  const name = [described?.maker, described?.model].filter((word) => word !== undefined).join(' ');
  addFact(facts, name === '' ? undefined : name, 'maker and model');
  addFact(
    facts,
    card.tank && (card.tank.kind === 'plain' ? 'plain tank' : 'captive air'),
    'captive air or plain',
  );
  addQuantity(facts, card.tank?.volumeL, 'volume', { missingName: 'tank size' });
  if (card.tank?.kind === 'plain') return;
  addQuantity(facts, card.tank?.prechargeKpa, 'pressure', {
    prefix: 'precharge on the card ',
    missingName: 'precharge',
  });
  const target = prechargeTarget(card, measured?.cutInKpa);
  if (target.is === 'unknown')
    return addFact(facts, undefined, `what the precharge should be: ${target.reason}`);
  const by = target.from === 'measured' ? 'measured' : 'written';
  addQuantity(facts, target.kpa, 'pressure', {
    prefix: 'to be set to ',
    suffix: `, 2 psi (14 kPa) under the ${by} cut-in`,
  });
}
