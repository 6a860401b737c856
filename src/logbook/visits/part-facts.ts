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
import { texts } from './texts.ts';

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

/** 2 psi: how far the precharge is to lie under cut-in. */
const UNDER_CUT_IN_KPA = 13.8;

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
    addDiameter(facts, card.description?.hole.dropPipeDiameterM, { prefix: texts().dropPipeOf });
    addFact(facts, undefined, texts().pipeAndThread);
  },
  electrical: (facts, { card }) => {
    const electrical = card.description?.electrical;
    addFact(facts, electrical?.panel && texts().panel(electrical.panel));
    addFact(facts, electrical?.breaker && texts().breaker(electrical.breaker), texts().whichBreaker);
    addQuantity(facts, electrical?.breakerA, 'current', {
      prefix: texts().breakerRating,
      missingName: texts().breakerSize,
    });
    addFact(facts, electrical?.disconnect && texts().disconnect(electrical.disconnect));
  },
  sensors: (facts) => addFact(facts, undefined, texts().sensorRanges),
  level: (facts, { card, measured }) => {
    const level = card.description?.hole.staticLevelM;
    addQuantity(facts, level, 'length', { prefix: texts().staticLevelOnCard });
    addFact(facts, measured?.staticLevel && texts().staticLevelRead(measured.staticLevel));
    if (level === undefined && measured?.staticLevel === undefined)
      addFact(facts, undefined, texts().staticLevel);
    addDiameter(facts, card.description?.hole.casingDiameterM, {
      prefix: 'casing ',
      missingName: texts().casingSize,
    });
  },
};

function collectPumpFacts(facts: PartFacts, { card }: PartFactsInput, pump: PumpCard | undefined): void {
  const described = pump && card.description?.pumps[pump.id];
  const name = [described?.maker, described?.model].filter((word) => word !== undefined).join(' ');
  addFact(facts, name === '' ? undefined : name, texts().makerAndModel);
  addFact(facts, pump?.kind);
  addQuantity(facts, pump?.motorW, 'power', { missingName: texts().motorSize });
  addQuantity(facts, pump?.volts, 'voltage', { missingName: texts().volts });
  addFact(
    facts,
    pump?.phase && (pump.phase === 1 ? texts().onePhase : texts().ofThreePhases),
    texts().phases,
  );
  if (pump?.phase !== 3) addFact(facts, pump?.wires && texts().wires(pump.wires), texts().wireCount);
  addQuantity(facts, pump?.ratedLPerS, 'flow', { prefix: texts().rated, missingName: texts().ratedFlow });
  addQuantity(facts, pump?.maxAmps, 'current', { prefix: texts().serviceFactorAmpsOf });
  addFact(facts, pump?.installed && texts().installedOn(pump.installed));
  addDiameter(facts, card.description?.hole.casingDiameterM, {
    prefix: 'casing ',
    missingName: texts().casingForPump,
  });
}

function collectDropPipeFacts(facts: PartFacts, { card }: PartFactsInput, pump: PumpCard | undefined): void {
  if (pump?.kind === 'jet' || pump?.kind === 'booster') {
    addFact(facts, texts().pumpAboveGround(pump.kind));
    return;
  }
  const hole = card.description?.hole;
  addQuantity(facts, pump?.setDepthM, 'length', {
    suffix: texts().toPull,
    missingName: texts().setDepth,
  });
  addDiameter(facts, hole?.dropPipeDiameterM, { prefix: '', missingName: texts().pipeSize });
  addFact(facts, hole?.dropPipeMaterial, texts().pipeMaterial);
  for (const valve of hole?.checkValves ?? [])
    addFact(
      facts,
      'depthM' in valve
        ? texts().checkValveAt(formatFact(facts, valve.depthM, 'length'))
        : texts().checkValve(valve.beside),
    );
  addFact(
    facts,
    card.description?.electrical.cable && texts().cable(card.description.electrical.cable),
    texts().cableType,
  );
}

function collectControlBoxFacts(
  facts: PartFacts,
  { card, measured }: PartFactsInput,
  pump: PumpCard | undefined,
): void {
  const described = pump && card.description?.pumps[pump.id];
  addFact(facts, described?.controlBox);
  addFact(facts, described?.driveModel && texts().drive(described.driveModel));
  if (pump?.phase === 3) addFact(facts, texts().threePhase);
  else if (pump?.wires === 2) addFact(facts, texts().twoWire);
  else {
    if (described?.controlBox === undefined) addFact(facts, undefined, texts().controlBoxModel);
    addQuantity(facts, pump?.motorW, 'power', {
      prefix: texts().forMotor,
      missingName: texts().motorForBox,
    });
    addQuantity(facts, pump?.volts, 'voltage', { missingName: texts().volts });
    addFact(
      facts,
      measured?.capacitor && texts().capacitorReadAs(measured.capacitor),
      texts().capacitorRating,
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
    addFact(facts, texts().control(pump.control.replaceAll('-', ' ')));
  const pair = (low: number | undefined, high: number | undefined): string | undefined =>
    low === undefined || high === undefined
      ? undefined
      : texts().fromTo(formatFact(facts, low, 'pressure'), formatFact(facts, high, 'pressure'));
  const written = pair(cutInKpa, cutOutKpa);
  addFact(facts, written && texts().range(written), texts().switchRange);
  const seen = pair(measured?.cutInKpa, measured?.cutOutKpa);
  addFact(facts, seen && texts().measured(seen));
  addQuantity(facts, lowCutOffKpa, 'pressure', { prefix: texts().lowPressureCutOff });
  addFact(facts, undefined, texts().nipple);
}

function collectTankFacts(facts: PartFacts, { card, measured }: PartFactsInput): void {
  const described = card.description?.tank;
  const name = [described?.maker, described?.model].filter((word) => word !== undefined).join(' ');
  addFact(facts, name === '' ? undefined : name, texts().makerAndModel);
  addFact(
    facts,
    card.tank && (card.tank.kind === 'plain' ? texts().plainTank : texts().captiveAir),
    texts().tankKind,
  );
  addQuantity(facts, card.tank?.volumeL, 'volume', { missingName: texts().tankSize });
  if (card.tank?.kind === 'plain') return;
  addQuantity(facts, card.tank?.prechargeKpa, 'pressure', {
    prefix: texts().prechargeOnCard,
    missingName: texts().precharge,
  });
  const target = prechargeTarget(card, measured?.cutInKpa);
  if (target.is === 'unknown') return addFact(facts, undefined, texts().prechargeUnknown(target.reason));
  addQuantity(facts, target.kpa, 'pressure', {
    prefix: texts().setTo,
    suffix: texts().belowCutIn(formatFact(facts, UNDER_CUT_IN_KPA, 'pressure'), target.from === 'measured'),
  });
}
