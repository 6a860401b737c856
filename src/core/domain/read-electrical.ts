/**
 * The pump's circuit: panel, breaker, disconnect, and which wire sits at which terminal, written down by whoever had the box open. Photos
 * are papers. Nothing of it asks anybody to open a box.
 */
import type { ElectricalDescription } from './description.ts';
import { TERMINAL_LOCATIONS } from './description.ts';
import {
  BREAKER_AMPS,
  MAX_LINE_CHARACTERS,
  MAX_TEXT_CHARACTERS,
  MAX_WIRE_CHARACTERS,
  MAX_PHOTOS,
  MAX_WIRES,
} from './limits.ts';
import {
  omitUndefined,
  childContext,
  addIssue,
  quantityAt,
  textAt,
  textsAt,
  fieldValue,
} from './parse-context.ts';
import type { ParseContext } from './parse-context.ts';
import { isDocumentHash } from './document-hash.ts';

export const ELECTRICAL_KEYS = [
  'panel',
  'breaker',
  'breakerAmps',
  'disconnect',
  'cable',
  'wires',
  'photos',
] as const;

export function readElectrical(context: ParseContext): ElectricalDescription {
  return {
    ...omitUndefined({
      panel: textAt(context, 'panel', MAX_LINE_CHARACTERS),
      breaker: textAt(context, 'breaker', MAX_TEXT_CHARACTERS),
      breakerA: quantityAt(context, 'breakerAmps', 'current', BREAKER_AMPS),
      disconnect: textAt(context, 'disconnect', MAX_LINE_CHARACTERS),
      cable: textAt(context, 'cable', MAX_LINE_CHARACTERS),
    }),
    wires: readWires(context),
    photos: readPhotos(context),
  };
}

function readWires(outer: ParseContext): ElectricalDescription['wires'] {
  const context = childContext(outer, 'wires', TERMINAL_LOCATIONS);
  if (!context) return {};
  const lists = TERMINAL_LOCATIONS.map(
    (place) =>
      [place, textsAt(context, place, { maxItems: MAX_WIRES, maxCharacters: MAX_WIRE_CHARACTERS })] as const,
  );
  return Object.fromEntries(lists.filter(([, list]) => list.length > 0));
}

function readPhotos(context: ParseContext): string[] {
  const value = fieldValue(context, 'photos');
  if (value === undefined) return [];
  if (Array.isArray(value) && value.length <= MAX_PHOTOS && value.every(isDocumentHash)) return value;
  addIssue(context, 'photos', `must be a list of at most ${MAX_PHOTOS} papers, each by its hash`);
  return [];
}
