/** Where the card says that the thing is which a check looks at. */
import type { Card } from '../../core/domain/card.ts';
import type { Location } from '../../core/domain/description.ts';

const LOCATION_FIELDS: Record<string, Location> = {
  'water-test': 'sampleTap',
  precharge: 'tank',
  'pressure-gauge': 'gauge',
  'relief-valve': 'relief',
  'well-cap': 'wellHead',
  freeze: 'pumpHouse',
  treatment: 'treatment',
  'uv-lamp': 'treatment',
  'static-level': 'wellHead',
};

export function checkLocation(check: string, card: Card): string | undefined {
  const place = LOCATION_FIELDS[check];
  return place && card.description?.where[place];
}
