/**
 * The descriptive part of a card: makers, hole, wiring, treatment, places and people. Its keys
 * stand beside those that the engine reads (`pump.maker` beside `pump.motor`), since whoever writes
 * a card thinks of the pump and not of the engine.
 */
import {
  CARD_NOTES,
  ELECTRICAL,
  HOLE,
  keysIn,
  PUMP_NOTES,
  TANK_NOTES,
  WHERE,
  WIRES,
} from '../../../shared/card/card-fields.ts';
import { HOLE_DEPTH } from '../../../shared/card/limits.ts';
import { parseQuantity } from '../../../shared/quantity/parse-quantity.ts';
import type { CardDescription, CheckValve, ElectricalDescription, HoleDescription } from './description.ts';
import { addIssue, childContext } from './parse-context.ts';
import type { ParseContext } from './parse-context.ts';
import { readFields } from './read-fields.ts';
import type { PumpContext } from './read-pumps.ts';

/** Undefined where nothing is said; problems are noted in `card`. */
export function readDescription(
  card: ParseContext,
  parts: { pumps: readonly PumpContext[]; tank: ParseContext | undefined },
): CardDescription | undefined {
  const pumps = parts.pumps
    .map(({ id, pump }) => [id, pump ? readFields(pump, PUMP_NOTES) : {}] as const)
    .filter(([, pump]) => Object.keys(pump).length > 0);
  const where = childContext(card, 'where', keysIn('where'));
  const description: CardDescription = {
    pumps: Object.fromEntries(pumps),
    hole: readHole(childContext(card, 'hole', keysIn('hole'))),
    tank: parts.tank ? readFields(parts.tank, TANK_NOTES) : {},
    electrical: readElectrical(childContext(card, 'electrical', keysIn('electrical'))),
    treatment: [],
    where: where ? readFields(where, WHERE) : {},
    ...readFields(card, CARD_NOTES),
  };
  return hasContent(description) ? description : undefined;
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
  const rule = `must each be a depth ${HOLE_DEPTH.text}, or a place in words`;
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
