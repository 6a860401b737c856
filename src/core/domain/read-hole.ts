/** The hole: what the driller's log says, and what hangs in it. Depths are measured from the ground. */
import type { CheckValve, HoleDescription } from './description.ts';
import {
  HOLE_DEPTH,
  MAX_TEXT_CHARACTERS,
  MAX_CHECK_VALVES,
  PIPE_SIZE,
  PUMP_FLOW,
  STATIC_LEVEL,
} from './limits.ts';
import { dateAt, omitUndefined, addIssue, quantityAt, textAt, textsAt } from './parse-context.ts';
import type { ParseContext } from './parse-context.ts';
import { parseQuantity } from '../../../shared/quantity/parse-quantity.ts';

export const HOLE_KEYS = [
  'depth',
  'drilled',
  'casing',
  'casingDepth',
  'casingMaterial',
  'staticLevel',
  'dropPipe',
  'dropPipeMaterial',
  'checkValves',
  'yield',
  'driller',
  'log',
] as const;

export function readHole(context: ParseContext): HoleDescription {
  return {
    ...omitUndefined({
      depthM: quantityAt(context, 'depth', 'length', HOLE_DEPTH),
      drilled: dateAt(context, 'drilled'),
      casingDiameterM: quantityAt(context, 'casing', 'length', PIPE_SIZE),
      casingDepthM: quantityAt(context, 'casingDepth', 'length', HOLE_DEPTH),
      casingMaterial: textAt(context, 'casingMaterial', MAX_TEXT_CHARACTERS),
      staticLevelM: quantityAt(context, 'staticLevel', 'length', STATIC_LEVEL),
      dropPipeDiameterM: quantityAt(context, 'dropPipe', 'length', PIPE_SIZE),
      dropPipeMaterial: textAt(context, 'dropPipeMaterial', MAX_TEXT_CHARACTERS),
      yieldLPerS: quantityAt(context, 'yield', 'flow', PUMP_FLOW),
      driller: textAt(context, 'driller', MAX_TEXT_CHARACTERS),
      logNumber: textAt(context, 'log', MAX_TEXT_CHARACTERS),
    }),
    checkValves: readCheckValves(context),
  };
}

/** A depth, or where it sits in words: many are built into the pump, and nobody measured those. */
function readCheckValves(context: ParseContext): CheckValve[] {
  const lines = textsAt(context, 'checkValves', {
    maxItems: MAX_CHECK_VALVES,
    maxCharacters: MAX_TEXT_CHARACTERS,
  });
  return lines.flatMap((line): CheckValve[] => {
    const depth = parseQuantity(line, 'length');
    const fits = 'si' in depth && depth.si >= HOLE_DEPTH.min && depth.si <= HOLE_DEPTH.max;
    if (fits) return [{ depthM: depth.si }];
    if (!('si' in depth) && !/\d/.test(line)) return [{ beside: line }];
    addIssue(
      context,
      'checkValves',
      `must each be a depth ${HOLE_DEPTH.text}, or a place in words`,
      JSON.stringify(line),
    );
    return [];
  });
}
