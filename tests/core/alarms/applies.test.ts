/**
 * What is asked of which control, said the other way round: by control, as a well technician would.
 */
import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../../shared/alarms/catalogue.ts';
import { ALARM_KINDS } from '../../../shared/text/en/alarms/kinds.ts';
import type { Control } from '../../../src/core/domain/card.ts';
import { appliesTo, appliesToWell } from '../../../src/core/alarms/applies.ts';

const never = (control: Control, drive?: 'solar'): string =>
  ALARM_KINDS.filter((kind) => !appliesTo(kind, { control, ...(drive && { drive }) }))
    .sort()
    .join(' ');

describe('appliesTo', () => {
  it.each([
    ['pressure-switch', ''],
    [
      'variable-speed',
      'amps-high amps-low cut-out-not-reached leg-imbalance slow-fill starts-over-limit switch-shift tank-air-lost tank-overcharged',
    ],
    ['constant-pressure-valve', 'slow-fill tank-overcharged'],
    ['float', 'cut-out-not-reached leak no-water switch-shift tank-air-lost tank-overcharged'],
    [
      'timer',
      'cut-out-not-reached cycle-count leak no-water slow-fill switch-shift tank-air-lost tank-overcharged',
    ],
  ] as const)('%s is never told %s', (control, kinds) => {
    expect(never(control)).toBe(kinds);
  });

  it('a pump that panels feed is never told what the sun does to it', () => {
    expect(never('float', 'solar')).toBe(
      'amps-high amps-low cut-out-not-reached cycle-count failed-start leak no-start no-water short-cycling slow-fill starts-over-limit supply-voltage switch-shift tank-air-lost tank-overcharged',
    );
  });

  it('what is to be acted on at once applies wherever water or motor can be lost', () => {
    for (const kind of ['long-run', 'dry-run', 'failed-start', 'no-start', 'power-lost', 'leg-lost'] as const)
      expect(Object.values(CATALOGUE[kind].controls)).not.toContain('none');
  });

  it('of a well it is asked where it makes sense of one of its pumps', () => {
    const pump = (control: Control) => ({ card: { id: 'p1', control } });
    expect(appliesToWell('no-water', [pump('float'), pump('pressure-switch')])).toBe(true);
    expect(appliesToWell('no-water', [pump('float'), pump('timer')])).toBe(false);
  });
});
