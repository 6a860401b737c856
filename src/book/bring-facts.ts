/**
 * What is known of each part for whoever loads a truck, and what nobody wrote down. Only what was written or measured is said; no size is
 * guessed from another.
 */
import { printQuantity, type UnitSystem } from '../../shared/quantity/print-quantity.ts';
import type { Dimension } from '../../shared/quantity/units.ts';
import { sayDiameter } from '../../shared/words/format.ts';
import type { Card, PumpCard } from '../card/card.ts';
import type { Part } from './bring-parts.ts';
import { prechargeTarget } from './precharge-target.ts';

/** What was measured, where it was. */
export interface Measured {
  cutInKpa?: number;
  cutOutKpa?: number;
  /** The newest reading of a capacitor, as it was written. */
  capacitor?: string;
  staticLevel?: string;
}

/** Gathered in the order in which it is read out. */
export interface Facts {
  units: UnitSystem;
  /** What is known, ready to be read: "1 hp", "230 V". */
  known: string[];
  /** What should be known and is not. */
  unknown: string[];
}

export interface FactsQuestion {
  card: Card;
  measured?: Measured;
}

export function factsOf(
  part: Part,
  units: UnitSystem,
  question: FactsQuestion,
  pump: PumpCard | undefined,
): Facts {
  const facts: Facts = { units, known: [], unknown: [] };
  TELL[part](facts, question, pump);
  return facts;
}

/** `name` is what is missing where there is no value; without it nothing is missed. */
function tell(told: Facts, value: string | false | undefined, name?: string): void {
  if (value !== undefined && value !== false && value !== '') told.known.push(value);
  else if (name !== undefined) told.unknown.push(name);
}

interface Say {
  before?: string;
  after?: string;
  name?: string;
}

function tellSize(told: Facts, value: number | undefined, dimension: Dimension, say: Say): void {
  const { before = '', after = '', name } = say;
  tell(told, value === undefined ? undefined : `${before}${print(told, value, dimension)}${after}`, name);
}

function print(told: Facts, value: number, dimension: Dimension): string {
  return printQuantity(value, dimension, told.units);
}

/** Bores of pipes and casings are called by inches in one part of the world and by mm in the other. */
function tellBore(told: Facts, m: number | undefined, { before = '', name }: Say): void {
  tell(told, m === undefined ? undefined : `${before}${sayDiameter(m, told.units)}`, name);
}

type Teller = (told: Facts, question: FactsQuestion, pump: PumpCard | undefined) => void;

const TELL: Record<Part, Teller> = {
  pump: tellPump,
  'drop-pipe': tellDropPipe,
  'control-box': tellControlBox,
  switch: tellSwitch,
  tank: tellTank,
  fittings: (told, { card }) => {
    tellBore(told, card.described?.hole.dropPipeM, { before: 'drop pipe ' });
    tell(told, undefined, 'size and kind of the pipe and thread at the place of work');
  },
  electrical: (told, { card }) => {
    const electrical = card.described?.electrical;
    tell(told, electrical?.panel && `panel: ${electrical.panel}`);
    tell(told, electrical?.breaker && `breaker ${electrical.breaker}`, 'which breaker');
    tellSize(told, electrical?.breakerA, 'current', { before: 'breaker of ', name: 'the breaker’s size' });
    tell(told, electrical?.disconnect && `disconnect: ${electrical.disconnect}`);
  },
  sensors: (told) => tell(told, undefined, 'spans of transducer and clamp: see the node’s own papers'),
  level: (told, { card, measured }) => {
    const level = card.described?.hole.staticLevelM;
    tellSize(told, level, 'length', { before: 'static level on the card ' });
    tell(told, measured?.staticLevel && `static level read last: ${measured.staticLevel}`);
    if (level === undefined && measured?.staticLevel === undefined) tell(told, undefined, 'static level');
    tellBore(told, card.described?.hole.casingM, { before: 'casing ', name: 'casing size' });
  },
};

function tellPump(told: Facts, { card }: FactsQuestion, pump: PumpCard | undefined): void {
  const described = pump && card.described?.pumps[pump.id];
  const name = [described?.maker, described?.model].filter((word) => word !== undefined).join(' ');
  tell(told, name === '' ? undefined : name, 'maker and model');
  tell(told, pump?.kind);
  tellSize(told, pump?.motorW, 'power', { name: 'motor size' });
  tellSize(told, pump?.volts, 'voltage', { name: 'volts' });
  tell(told, pump?.phase && (pump.phase === 1 ? 'single-phase' : 'three-phase'), 'phases');
  if (pump?.phase !== 3) tell(told, pump?.wires && `${pump.wires}-wire`, 'two wires or three');
  tellSize(told, pump?.ratedLPerS, 'flow', { before: 'rated ', name: 'rated flow' });
  tellSize(told, pump?.maxAmps, 'current', { before: 'service-factor amps ' });
  tell(told, pump?.installed && `installed ${pump.installed}`);
  tellBore(told, card.described?.hole.casingM, {
    before: 'casing ',
    name: 'casing size, which the pump must fit',
  });
}

function tellDropPipe(told: Facts, { card }: FactsQuestion, pump: PumpCard | undefined): void {
  if (pump?.kind === 'jet' || pump?.kind === 'booster') {
    tell(told, `a ${pump.kind} pump stands above ground: nothing to pull`);
    return;
  }
  const hole = card.described?.hole;
  tellSize(told, pump?.setDepthM, 'length', {
    after: ' to pull (the set depth)',
    name: 'set depth, so the length to pull',
  });
  tellBore(told, hole?.dropPipeM, { before: '', name: 'pipe size' });
  tell(told, hole?.dropPipeOf, 'what the pipe is of');
  for (const valve of hole?.checkValves ?? [])
    tell(
      told,
      'depthM' in valve
        ? `check valve at ${print(told, valve.depthM, 'length')}`
        : `check valve ${valve.beside}`,
    );
  tell(told, card.described?.electrical.cable && `cable: ${card.described.electrical.cable}`, 'cable');
}

function tellControlBox(told: Facts, { card, measured }: FactsQuestion, pump: PumpCard | undefined): void {
  const described = pump && card.described?.pumps[pump.id];
  tell(told, described?.controlBox);
  tell(told, described?.drive && `drive: ${described.drive}`);
  if (pump?.phase === 3) tell(told, 'three-phase motor: no start parts');
  else if (pump?.wires === 2)
    tell(told, 'two-wire motor: its start parts are in the motor, and there is no box for them');
  else {
    if (described?.controlBox === undefined) tell(told, undefined, 'make and model of the control box');
    tellSize(told, pump?.motorW, 'power', {
      before: 'for ',
      name: 'motor size, which box and capacitor must match',
    });
    tellSize(told, pump?.volts, 'voltage', { name: 'volts' });
    tell(
      told,
      measured?.capacitor && `capacitor read as ${measured.capacitor}`,
      'the capacitor’s uF and volts, as its own plate says',
    );
  }
}

function tellSwitch(told: Facts, { card, measured }: FactsQuestion, pump: PumpCard | undefined): void {
  const { cutInKpa, cutOutKpa, lowCutOffKpa } = card.switch;
  if (pump && pump.control !== 'pressure-switch') tell(told, `control: ${pump.control.replaceAll('-', ' ')}`);
  const pair = (low: number | undefined, high: number | undefined): string | undefined =>
    low === undefined || high === undefined
      ? undefined
      : `${print(told, low, 'pressure')} to ${print(told, high, 'pressure')}`;
  const written = pair(cutInKpa, cutOutKpa);
  tell(told, written && `range ${written}`, 'the switch’s range as written');
  const seen = pair(measured?.cutInKpa, measured?.cutOutKpa);
  tell(told, seen && `measured ${seen}`);
  tellSize(told, lowCutOffKpa, 'pressure', { before: 'with low-pressure cut-off at ' });
  tell(told, undefined, 'the nipple under the switch');
}

function tellTank(told: Facts, { card, measured }: FactsQuestion): void {
  const described = card.described?.tank;
  const name = [described?.maker, described?.model].filter((word) => word !== undefined).join(' ');
  tell(told, name === '' ? undefined : name, 'maker and model');
  tell(
    told,
    card.tank && (card.tank.kind === 'plain' ? 'plain tank' : 'captive air'),
    'captive air or plain',
  );
  tellSize(told, card.tank?.volumeL, 'volume', { name: 'tank size' });
  if (card.tank?.kind === 'plain') return;
  tellSize(told, card.tank?.prechargeKpa, 'pressure', {
    before: 'precharge on the card ',
    name: 'precharge',
  });
  const target = prechargeTarget(card, measured?.cutInKpa);
  if (target.is === 'unknown') return tell(told, undefined, `what the precharge should be: ${target.why}`);
  const by = target.from === 'measured' ? 'measured' : 'written';
  tellSize(told, target.kpa, 'pressure', {
    before: 'to be set to ',
    after: `, 2 psi (14 kPa) under the ${by} cut-in`,
  });
}
