/** Where liters come from, in words. */
import { expect, test } from 'vitest';
import { volumeSourceWords } from '../../dashboards/words/volume-source.ts';
import type { PumpDetail, WellDetail } from '../../shared/api/wells.ts';

const TANK: WellDetail['card'] = { tankKind: 'captive-air', tankL: 167 };

test.each<[string, WellDetail['card'], Partial<PumpDetail>, string[], string]>([
  ['a meter', TANK, {}, ['current', 'flow'], 'measured by a flow meter'],
  ['the second pump’s own', TANK, { pump: 'p2' }, ['flow', 'p2/flow'], 'measured by a flow meter'],
  ['another pump’s meter', TANK, { pump: 'p2' }, ['flow'], 'calculated from pressure and tank'],
  ['no meter', TANK, {}, ['current', 'pressure'], 'calculated from pressure and tank'],
  ['no tank either', {}, {}, ['pressure'], 'not known without a tank on the card or a flow meter'],
  [
    'a plain tank',
    { tankKind: 'plain', tankL: 300 },
    {},
    [],
    'not known without a tank on the card or a flow meter',
  ],
  ['a float', TANK, { control: 'float' }, [], 'not known without a flow meter'],
  ['a float and a meter', TANK, { control: 'float' }, ['flow'], 'measured by a flow meter'],
])('%s', (_name, card, change, channels, words) => {
  const sensors = channels.map((channel) => ({ channel, node: 'barn', lastMs: 1 }));
  const pump: PumpDetail = { pump: 'p1', control: 'pressure-switch', ...change };
  // Only the card and the sensors are read of it.
  expect(volumeSourceWords({ card, sensors } as unknown as WellDetail, pump)).toBe(words);
});

test('a meter that was never heard meters nothing', () => {
  const detail = { card: {}, sensors: [{ channel: 'flow', node: 'barn' }] } as unknown as WellDetail;
  expect(volumeSourceWords(detail, { pump: 'p1', control: 'float' })).toBe('not known without a flow meter');
});
