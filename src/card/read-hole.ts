/** The hole: what the driller's log says, and what hangs in it. Depths are measured from the ground. */
import type { CheckValve, HoleDescription } from './description.ts';
import { HOLE_DEPTH, LONGEST_TEXT, MOST_CHECK_VALVES, PIPE_SIZE, PUMP_FLOW, STATIC_LEVEL } from './limits.ts';
import { dateAt, given, note, quantityAt, textAt, textsAt } from './look.ts';
import type { Look } from './look.ts';
import { parseQuantity } from '../../shared/quantity/parse-quantity.ts';

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

export function readHole(look: Look): HoleDescription {
  return {
    ...given({
      depthM: quantityAt(look, 'depth', 'length', HOLE_DEPTH),
      drilled: dateAt(look, 'drilled'),
      casingM: quantityAt(look, 'casing', 'length', PIPE_SIZE),
      casingToM: quantityAt(look, 'casingDepth', 'length', HOLE_DEPTH),
      casingOf: textAt(look, 'casingMaterial', LONGEST_TEXT),
      staticLevelM: quantityAt(look, 'staticLevel', 'length', STATIC_LEVEL),
      dropPipeM: quantityAt(look, 'dropPipe', 'length', PIPE_SIZE),
      dropPipeOf: textAt(look, 'dropPipeMaterial', LONGEST_TEXT),
      yieldLPerS: quantityAt(look, 'yield', 'flow', PUMP_FLOW),
      driller: textAt(look, 'driller', LONGEST_TEXT),
      log: textAt(look, 'log', LONGEST_TEXT),
    }),
    checkValves: readCheckValves(look),
  };
}

/** A depth, or where it sits in words: many are built into the pump, and nobody measured those. */
function readCheckValves(look: Look): CheckValve[] {
  const lines = textsAt(look, 'checkValves', { most: MOST_CHECK_VALVES, longest: LONGEST_TEXT });
  return lines.flatMap((line): CheckValve[] => {
    const depth = parseQuantity(line, 'length');
    const fits = 'si' in depth && depth.si >= HOLE_DEPTH.min && depth.si <= HOLE_DEPTH.max;
    if (fits) return [{ depthM: depth.si }];
    if (!('si' in depth) && !/\d/.test(line)) return [{ beside: line }];
    note(
      look,
      'checkValves',
      `must each be a depth ${HOLE_DEPTH.says}, or a place in words`,
      JSON.stringify(line),
    );
    return [];
  });
}
