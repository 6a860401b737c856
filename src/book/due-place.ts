/** Where the card says that the thing is which a check looks at. */
import type { Card } from '../card/card.ts';
import type { Place } from '../card/description.ts';

const PLACE_OF: Record<string, Place> = {
  'water-test': 'sampleTap',
  precharge: 'tank',
  'pressure-gauge': 'gauge',
  'relief-valve': 'relief',
  'well-cap': 'wellHead',
  freeze: 'pumpHouse',
};

export function placeOf(check: string, card: Card): string | undefined {
  const place = PLACE_OF[check];
  return place && card.described?.where[place];
}
