/**
 * More starts for longer than guests stay, in runs as long as ever, is a note; gardens, guests,
 * herds and seasons are not.
 */
import { describe, expect, it } from 'vitest';
import { houseCard, kit, normal, usualBaseline, type KitOptions } from '../scene-kit.ts';

const baseline = usualBaseline({ cyclesPerDay: normal(12, 2, 14), ranSPerDay: normal(1440, 200, 14) });
const weeks = 'day 12 cycles 1440s x21';
const reported = 'day 35 cycle-count raised note habit-changed';

describe('cycle-count by weeks', () => {
  it.each<[string, string, string[], KitOptions?]>([
    ['twice the starts for two weeks', `${weeks} | day 24 cycles 2880s x14`, [reported]],
    [
      'stands until three days are like others',
      `${weeks} | day 24 cycles 2880s x16 | day 12 cycles 1440s x2 | day 12 cycles 1440s`,
      [reported, 'day 39 cycle-count cleared'],
    ],
    [
      'or until the weeks before were as busy: that is the use of this well now',
      `${weeks} | day 24 cycles 2880s x30`,
      [reported, 'day 46 cycle-count cleared'],
    ],
    [
      'guests that leave on a Sunday, and others that come on the Tuesday',
      `${weeks} | day 24 cycles 2880s x7 | day 12 cycles 1440s x1 | day 24 cycles 2880s x8`,
      [],
    ],
    ['guests for twelve days', `${weeks} | day 28 cycles 3360s x12 | day 12 cycles 1440s x5`, []],
    ['a garden: longer runs', `${weeks} | day 24 cycles 4800s x20`, []],
    ['half as much again is how houses live', `${weeks} | day 18 cycles 2160s x30`, []],
    ['too few weeks before to know', 'day 12 cycles 1440s x10 | day 24 cycles 2880s x16', []],
    [
      'days that were not heard are no row',
      `${weeks} | day 24 cycles 2880s x7 | day 24 cycles 2880s heard 50% | day 24 cycles 2880s x8`,
      [],
    ],
    [
      'a herd drinks half as much again in a hot week',
      `${weeks} | day 18 cycles 2160s x20`,
      [],
      { card: houseCard({ uses: ['house', 'stock'] }) },
    ],
  ])('%s', (_name, text, expected, options) => {
    const { said } = kit({ kinds: ['cycle-count'], baseline, ...options }).play(text);
    expect(said()).toEqual(expected);
  });
});
