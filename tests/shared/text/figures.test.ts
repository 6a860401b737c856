import { describe, expect, test } from 'vitest';
import { figureLines } from '../../../shared/text/en/figures.ts';

describe('figureLines', () => {
  // 275.79 kPa = 40 psi, 206.84 kPa = 30 psi (NIST SP 811 factors).
  test.each([
    ['a count', { starts: 14 }, 'Starts: 14', 'Starts: 14'],
    ['seconds', { ranS: 2880 }, 'Run time: 48 min', 'Run time: 48 min'],
    ['a pressure', { cutInKpa: 275.79 }, 'Cut-in: 40 psi', 'Cut-in: 276 kPa'],
    ['amps alone', { amps: 7.92 }, 'Amps: 7.92 A', 'Amps: 7.92 A'],
    ['amps of something', { normalAmps: 7.5 }, 'Normal amps: 7.5 A', 'Normal amps: 7.5 A'],
    ['litres a day', { leakLPerDay: 378.541 }, 'Loss: 100 gal a day', 'Loss: 379 L a day'],
    ['a fall of pressure', { fallKpaPerMin: 6.894757 }, 'Fall: 1 psi a minute', 'Fall: 6.9 kPa a minute'],
    ['a temperature', { airC: 1.67 }, 'Air: 35 F', 'Air: 1.7 C'],
    ['a depth', { levelM: 30.48 }, 'Water above the pump: 100 ft', 'Water above the pump: 30.5 m'],
    ['a share', { heardShare: 0.5 }, 'Heard: 50 %', 'Heard: 50 %'],
    ['a pressure by itself', { kpa: 496 }, 'Pressure: 72 psi', 'Pressure: 496 kPa'],
    ['what a fill took', { normalS: 118 }, 'Normal fill time: 1 min 58 s', 'Normal fill time: 1 min 58 s'],
    ['text', { channel: 'p2/current' }, 'Channel: p2/current', 'Channel: p2/current'],
    ['times a day', { cyclesPerDay: 36.5 }, 'Cycles: 36.5 a day', 'Cycles: 36.5 a day'],
  ])('%s', (_name, evidence, us, metric) => {
    expect(figureLines(evidence as Record<string, number | string>, 'us')).toEqual([us]);
    expect(figureLines(evidence as Record<string, number | string>, 'metric')).toEqual([metric]);
  });

  test('what the card says is no figure, and no share of two others is', () => {
    expect(figureLines({ phase: 1, pumpKind: 'jet', share: 0.2, starts: 3 }, 'us')).toEqual(['Starts: 3']);
  });
});
