import { describe, expect, it } from 'vitest';
import { inrushS, newStart, addToStart } from '../../../src/core/cycles/start.ts';

/** Half-cycle RMS values 20 ms apart. */
function record(text: string): { amps: number; lengthS: number } {
  const values = text.split(' ').flatMap((part) => {
    const [value, times] = part.split('x');
    return Array.from({ length: Number(times ?? 1) }, () => Number(value));
  });
  const start = newStart(0, values[0]!);
  values.slice(1).forEach((amps, i) => addToStart(start, (i + 1) * 20, amps, 1));
  return { amps: start.peakAmps, lengthS: inrushS(start) };
}

describe('the record of a start', () => {
  it.each([
    ['0.2 s of rest, half a second of inrush, then running', '0x10 45 44x24 20 9x60', 45, 0.48],
    ['a slow start', '0x10 45 44x90 20 9x60', 45, 1.8],
    ['a rotor held until the record ends', '0x10 45x100', 45, 1.98],
    ['no inrush in it', '8x50', 8, 0.98],
  ])('%s', (_name, text, amps, lengthS) => {
    const found = record(text);
    expect(found.amps).toBe(amps);
    expect(found.lengthS).toBeCloseTo(lengthS, 5);
  });
});
