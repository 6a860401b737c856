/** What to bring to a well, in words: names of the parts, and what always belongs on the truck. */
import type { PartsListItemAnswer } from '../../../api/visits.ts';

const PART_NAMES: Record<string, string> = {
  pump: 'Pump and motor',
  'drop-pipe': 'Drop pipe, cable, check valve',
  'control-box': 'Control box and capacitor',
  switch: 'Pressure switch',
  tank: 'Pressure tank',
  fittings: 'Fittings',
  electrical: 'Breaker and supply (for the electrician)',
  sensors: 'Node, clamp, transducer',
  level: 'Water level meter',
};

/** Common practice, no source. */
export const PARTS_LIST_ALWAYS =
  'A pressure gauge that was checked, a tire gauge, lock and tag for the breaker, and meters if a qualified person will use them. If the well or its pipes will be opened: plain bleach, and a laboratory bottle for the water test afterward.';

/** "Pump and motor, pump 2". */
export function partsListItemText({ part, pump }: PartsListItemAnswer): string {
  return `${PART_NAMES[part] ?? part}${pump === undefined ? '' : `, pump ${pump.slice(1)}`}`;
}

/** What the list is based on. */
export function partsListReason(items: readonly PartsListItemAnswer[]): string {
  return items.some(({ reasons }) => reasons.length > 0)
    ? 'For the active alarms, most likely causes first.'
    : 'No active alarm calls for a part. These are the known parts, just in case.';
}
