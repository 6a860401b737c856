import { expect, test } from 'vitest';
import { namesOnCard } from '../../../src/core/notify/names-on-card.ts';
import type { CardDescription } from '../../../src/core/domain/description.ts';
import { houseCard } from '../alarms/scene-kit.ts';

const card = houseCard();
const description: CardDescription = {
  firm: 'Bluestem Well Service, 555-0142',
  electrical: { breaker: '14/16', wires: {}, photos: [] },
  hole: { checkValves: [] },
  tank: {},
  pumps: {},
  treatment: [],
  where: { panel: 'barn, north wall', shutOff: 'under the stairs' },
};

test('namesOnCard: firm, breaker, panel and shut-off valve; no breaker where several pumps have one each', () => {
  const names = {
    firm: 'Bluestem Well Service, 555-0142',
    panel: 'barn, north wall',
    shutOff: 'under the stairs',
  };
  expect(namesOnCard({ ...card, description })).toEqual({ ...names, breaker: '14/16' });
  const pumps = card.pumps.flatMap((pump) => [pump, { ...pump, id: 'p2' }]);
  expect(namesOnCard({ ...card, description, pumps })).toEqual(names);
  const { description: _description, ...bare } = card;
  expect(namesOnCard(bare)).toEqual({});
});
