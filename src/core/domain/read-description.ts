/**
 * The descriptive part of a card: makers, hole, wiring, treatment, places and people. Its keys
 * stand beside those that the engine reads (`pump.maker` beside `pump.motor`), since whoever writes
 * a card thinks of the pump and not of the engine.
 */
import { keysIn } from '../../../shared/card/card-fields.ts';
import {
  CARD_NOTES,
  DISTANCES,
  ELECTRICAL,
  HOLE,
  PERMIT,
  PUMP_NOTES,
  STORAGE,
  TANK_NOTES,
  TREATMENT_UNITS,
  WHERE,
  WIRE,
  WIRES,
} from '../../../shared/card/description-fields.ts';
import { HOLE_DEPTH } from '../../../shared/card/limits.ts';
import { parseQuantity } from '../../../shared/quantity/parse-quantity.ts';
import { omitUndefined } from '../../../shared/omit-undefined.ts';
import { rangeText, type Fields, type Values } from '../../../shared/schema/field.ts';
import type {
  CardDescription,
  CheckValve,
  ElectricalDescription,
  HoleDescription,
  PumpDescription,
  TreatmentUnits,
} from './description.ts';
import { addIssue, childContext } from './parse-context.ts';
import type { ParseContext } from './parse-context.ts';
import { readFields } from './read-fields.ts';
import { texts } from './texts.ts';
import type { PumpContext } from './read-pumps.ts';

/** Undefined where nothing is said; problems are noted in `card`. */
export function readDescription(
  card: ParseContext,
  parts: { pumps: readonly PumpContext[]; tank: ParseContext | undefined },
): CardDescription | undefined {
  const pumps = parts.pumps
    .map(({ id, pump }) => [id, pump ? readPumpNotes(pump) : {}] as const)
    .filter(([, pump]) => Object.keys(pump).length > 0);
  const description: CardDescription = {
    pumps: Object.fromEntries(pumps),
    hole: readHole(childContext(card, 'hole', keysIn('hole'))),
    tank: parts.tank ? readFields(parts.tank, TANK_NOTES) : {},
    electrical: readElectrical(childContext(card, 'electrical', keysIn('electrical'))),
    treatment: [],
    where: readPart(card, 'where', WHERE) ?? {},
    ...readFields(card, CARD_NOTES),
    ...omitUndefined({
      storage: readPart(card, 'storage', STORAGE),
      distances: readPart(card, 'distances', DISTANCES),
      permit: readPart(card, 'permit', PERMIT),
      treatmentUnits: readTreatmentUnits(card),
    }),
  };
  return hasContent(description) ? description : undefined;
}

/** An object of plain fields; undefined where nothing is said in it. */
function readPart<T extends Fields>(outer: ParseContext, key: string, fields: T): Values<T> | undefined {
  const context = childContext(outer, key, Object.keys(fields));
  const values = context && readFields(context, fields);
  return values && hasContent(values) ? values : undefined;
}

function readPumpNotes(pump: ParseContext): PumpDescription {
  const wire = readPart(pump, 'wire', WIRE);
  return { ...readFields(pump, PUMP_NOTES), ...(wire && { wire }) };
}

function readTreatmentUnits(card: ParseContext): TreatmentUnits | undefined {
  const context = childContext(card, 'treatmentUnits', keysIn('treatmentUnits'));
  if (!context) return undefined;
  const units: TreatmentUnits = omitUndefined({
    sedimentFilter: readPart(context, 'sedimentFilter', TREATMENT_UNITS.sedimentFilter),
    carbonFilter: readPart(context, 'carbonFilter', TREATMENT_UNITS.carbonFilter),
    softener: readPart(context, 'softener', TREATMENT_UNITS.softener),
    ironFilter: readPart(context, 'ironFilter', TREATMENT_UNITS.ironFilter),
    uvLamp: readPart(context, 'uvLamp', TREATMENT_UNITS.uvLamp),
    reverseOsmosis: readPart(context, 'reverseOsmosis', TREATMENT_UNITS.reverseOsmosis),
  });
  return hasContent(units) ? units : undefined;
}

function readHole(context: ParseContext | undefined): HoleDescription {
  if (!context) return { checkValves: [] };
  const { checkValves = [], ...hole } = readFields(context, HOLE);
  return { ...hole, checkValves: checkValves.flatMap((line) => readCheckValve(context, line)) };
}

function readCheckValve(context: ParseContext, line: string): CheckValve[] {
  const depth = parseQuantity(line, 'length');
  const fits = 'si' in depth && depth.si >= HOLE_DEPTH.min && depth.si <= HOLE_DEPTH.max;
  if (fits) return [{ depthM: depth.si }];
  if (!('si' in depth) && !/\d/.test(line)) return [{ beside: line }];
  const rule = texts().mustBeADepthOrPlace(rangeText(HOLE_DEPTH));
  addIssue(context, 'checkValves', rule, JSON.stringify(line));
  return [];
}

function readElectrical(context: ParseContext | undefined): ElectricalDescription {
  const wires = context && childContext(context, 'wires', keysIn('electrical.wires'));
  return {
    photos: [],
    ...(context && readFields(context, ELECTRICAL)),
    wires: wires ? readFields(wires, WIRES) : {},
  };
}

/** Empty objects and lists say nothing, however deep they lie. */
function hasContent(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return true;
  return Object.values(value).some(hasContent);
}
