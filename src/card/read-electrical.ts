/**
 * The pump's circuit: panel, breaker, disconnect, and which wire sits at which terminal, written down by whoever had the box open. Photos
 * are papers. Nothing of it asks anybody to open a box.
 */
import type { ElectricalDescription } from './description.ts';
import { WIRED_PLACES } from './description.ts';
import { BREAKER_AMPS, LONGEST_LINE, LONGEST_TEXT, LONGEST_WIRE, MOST_PHOTOS, MOST_WIRES } from './limits.ts';
import { given, lookInto, note, quantityAt, textAt, textsAt, valueOf } from './look.ts';
import type { Look } from './look.ts';
import { isPaperHash } from './paper-hash.ts';

export const ELECTRICAL_KEYS = [
  'panel',
  'breaker',
  'breakerAmps',
  'disconnect',
  'cable',
  'wires',
  'photos',
] as const;

export function readElectrical(look: Look): ElectricalDescription {
  return {
    ...given({
      panel: textAt(look, 'panel', LONGEST_LINE),
      breaker: textAt(look, 'breaker', LONGEST_TEXT),
      breakerA: quantityAt(look, 'breakerAmps', 'current', BREAKER_AMPS),
      disconnect: textAt(look, 'disconnect', LONGEST_LINE),
      cable: textAt(look, 'cable', LONGEST_LINE),
    }),
    wires: readWires(look),
    photos: readPhotos(look),
  };
}

function readWires(outer: Look): ElectricalDescription['wires'] {
  const look = lookInto(outer, 'wires', WIRED_PLACES);
  if (!look) return {};
  const lists = WIRED_PLACES.map(
    (place) => [place, textsAt(look, place, { most: MOST_WIRES, longest: LONGEST_WIRE })] as const,
  );
  return Object.fromEntries(lists.filter(([, list]) => list.length > 0));
}

function readPhotos(look: Look): string[] {
  const value = valueOf(look, 'photos');
  if (value === undefined) return [];
  if (Array.isArray(value) && value.length <= MOST_PHOTOS && value.every(isPaperHash)) return value;
  note(look, 'photos', `must be a list of at most ${MOST_PHOTOS} papers, each by its hash`);
  return [];
}
