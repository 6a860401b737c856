import { describe, expect, it } from 'vitest';
import { drawsForHours } from '../../../src/core/domain/uses.ts';

describe('drawsForHours', () => {
  it('a field and a heat pump do; a house, stock and a card that says nothing do not', () => {
    expect(drawsForHours(['irrigation'])).toBe(true);
    expect(drawsForHours(['house', 'heat-pump'])).toBe(true);
    expect(drawsForHours(['house', 'stock'])).toBe(false);
    expect(drawsForHours([])).toBe(false);
  });
});
