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
  level: 'Level tape',
};

/** Common practice, no source. */
export const PARTS_LIST_ALWAYS =
  'A pressure gauge that was checked, a tire gauge, lock and tag for the breaker, and whatever meters the person who may use them brings. Where the well or its pipes are opened: plain bleach, and a bottle of the laboratory for the test after.';

/** "Pump and motor, pump 2". */
export function partsListItemText({ part, pump }: PartsListItemAnswer): string {
  return `${PART_NAMES[part] ?? part}${pump === undefined ? '' : `, pump ${pump.slice(1)}`}`;
}

/** What the list rests on. */
export function partsListReason(items: readonly PartsListItemAnswer[]): string {
  return items.some(({ reasons }) => reasons.length > 0)
    ? 'For the alarms that stand, likeliest causes first.'
    : 'Nothing that stands asks for a part. This is what is known, for whatever turns up.';
}
