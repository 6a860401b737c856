import { describe, expect, it } from 'vitest';
import { drive } from './series.ts';

interface Row {
  name: string;
  amps: string;
  kpa?: string;
  everyS?: number;
  maxAmps?: number;
  lines?: string[];
  /** `started-stopped amps flags` of each cycle, in seconds. */
  cycles: string[];
}

const ROWS: Row[] = [
  { name: 'a plain run', amps: '0x60 8.2x300 0x120', cycles: ['60-360 8.2'] },
  {
    name: 'two runs and the rest between',
    amps: '0x60 8.2x60 0x100 8.4x60 0x10',
    cycles: ['60-120 8.2', '220-280 8.4 rested 100'],
  },
  {
    name: 'inrush counts only where nothing comes later',
    amps: '0x10 40x2 8x30 0x5 40 8 0x5',
    cycles: ['10-42 8', '47-49 24 rested 5 failed-start'],
  },
  { name: 'one spike is no run', amps: '0x60 9 0x60', cycles: [] },
  {
    name: 'one reading of starting current at cut-in is a start that failed',
    amps: '0x60 8x60 0x60 40 0x60',
    kpa: '280x60 280..410x60 410..280x60 280 279x60',
    cycles: ['60-120 8', '180-181 40 rested 60 failed-start'],
  },
  {
    name: 'the same well over cut-in is a spike',
    amps: '0x60 8x60 0x60 40 0x60',
    kpa: '280x60 280..410x60 410..350x60 350 349x60',
    cycles: ['60-120 8'],
  },
  { name: 'one dropout does not end a run', amps: '0x60 8x30 0 8x30 0x10', cycles: ['60-121 8'] },
  { name: 'clamp offset of half an amp', amps: '0.5x60 8.7x60 0.5x60', cycles: ['60-120 8.7'] },
  { name: 'running when it is first heard', amps: '8x60 0x60', cycles: ['0-60 8 gap'] },
  { name: 'missing readings within a run', amps: '0x60 8x20 -x20 8x20 0x10', cycles: ['60-120 8 gap'] },
  {
    name: 'nothing heard for ten minutes closes a run where it was last heard',
    amps: '0x60 8x20 -x600 0x30',
    cycles: ['60-80 8 gap'],
  },
  { name: 'a small booster with its card', amps: '0x60 0.9x60 0x10', maxAmps: 1.2, cycles: ['60-120 0.9'] },
  {
    name: 'dry running draws half and is still a run',
    amps: '0x60 8x60 0x60 4x60 0x10',
    cycles: ['60-120 8', '180-240 4 rested 60'],
  },
  { name: 'readings 5 s apart', amps: '0x20 8x10 0x20', everyS: 5, cycles: ['100-150 8'] },
  {
    name: 'readings 10 s apart, a run of three',
    amps: '0x20 8x10 0x20 8x3 0x9',
    everyS: 10,
    cycles: ['200-300 8', '500-530 8 rested 200'],
  },
  {
    name: 'one reading at 10 s that looks like the run before is a short run',
    amps: '0x20 8x10 0x20 8 0x9',
    everyS: 10,
    cycles: ['200-300 8', '500-510 8 rested 200'],
  },
  { name: 'ten readings a second', amps: '0x600 8x300 0x100', everyS: 0.1, cycles: ['60-90 8 peak 8'] },
  {
    name: 'a lost line does not hide the run',
    amps: '0x30 0x60 0x30',
    lines: ['0x30 11x60 0x30', '0x30 11x60 0x30'],
    cycles: ['30-90 0'],
  },
  {
    name: 'a single low reading at 5 s with pressure held high is a dropout',
    amps: '0x20 8x10 0 8x10 0x20',
    kpa: '300..280x20 280..350x10 352 354..410x10 410..400x20',
    everyS: 5,
    cycles: ['100-205 8 coarse merged'],
  },
  {
    name: 'a single low reading at 5 s with pressure back at cut-in is a rest',
    amps: '0x20 8x10 0 8x10 0x20',
    kpa: '300..280x20 280..410x10 290 281..410x10 410..400x20',
    everyS: 5,
    cycles: ['100-150 8 coarse', '155-205 8 rested 5 coarse'],
  },
];

describe('pumpCurrent', () => {
  it.each(ROWS)('$name', (row) => {
    const { cycles } = drive(row);
    const said = cycles.map((c) =>
      [
        `${c.startedMs / 1000}-${c.stoppedMs / 1000} ${c.amps}`,
        c.restedS !== undefined ? `rested ${c.restedS}` : '',
        c.startAmps !== undefined ? `peak ${c.startAmps}` : '',
        ...c.flags,
      ]
        .filter(Boolean)
        .join(' '),
    );
    expect(said).toEqual(row.cycles);
  });

  it('finds the same cycles under clamp noise', () => {
    const wobble = (i: number): number => 0.03 * Math.sin(i * 12.9898);
    const { cycles } = drive({ amps: '0.1x200 8.2x90 0.1x200 8.2x90 0.1x50', noise: wobble });
    expect(cycles.map((c) => [c.startedMs / 1000, c.stoppedMs / 1000])).toEqual([
      [200, 290],
      [490, 580],
    ]);
    expect(cycles[1]!.amps).toBeCloseTo(8.2, 1);
  });
});

describe('three lines', () => {
  it('a stop that is seen line by line is no current that fell away', () => {
    const line = '0x12 9x12 1.8 0x12';
    const [cycle] = drive({ everyS: 5, amps: line, lines: [line, line] }).cycles;
    expect(cycle).toMatchObject({ amps: 9, amps2: 9, amps3: 9, readings: 13 });
    expect(cycle).not.toHaveProperty('broke');
  });

  it('a line that carries nothing is counted while the others run', () => {
    const [cycle] = drive({
      amps: '0x60 9x60 0x10',
      lines: ['0x60 9x20 0x40 0x10', '0x60 9x60 0x10'],
    }).cycles;
    expect(cycle).toMatchObject({ amps: 9, amps2: 0, amps3: 9 });
  });
});

describe('cut-in, cut-out and rise', () => {
  it('reads them at 1 s as the contract says', () => {
    const { cycles } = drive({ amps: '0x60 8x100 0x20', kpa: '310..280.5x60 280..379x100 379..378x20' });
    expect(cycles[0]!.cutInKpa).toBeCloseTo(280, 0);
    expect(cycles[0]!.cutOutKpa).toBeCloseTo(378, 1);
    expect(cycles[0]!.riseDelayS).toBe(7);
    expect(cycles[0]!.flags).toEqual([]);
  });

  it('reads them from three readings at 5 s', () => {
    const { cycles } = drive({ everyS: 5, amps: '0x20 8x20 0x5', kpa: '318..280x20 278..373x20 373x5' });
    expect(cycles[0]!.cutInKpa).toBeCloseTo(278, 1);
    expect(cycles[0]!.cutOutKpa).toBeCloseTo(378, 1);
    expect(cycles[0]!.flags).toEqual(['coarse']);
  });

  it('leaves out what was not measured', () => {
    const [cycle] = drive({ amps: '0x60 8x100 0x20' }).cycles;
    expect(cycle).not.toHaveProperty('cutInKpa');
    expect(cycle).not.toHaveProperty('cutOutKpa');
    expect(cycle).not.toHaveProperty('riseDelayS');
    expect(cycle).not.toHaveProperty('restedS');
  });
});
