/** The past of a well: chart series of raw readings, cycles, days and baselines. */
import { z } from 'zod';
import { baselineShape, cycleShape, dayShape } from './event-shapes.ts';

const opt = z.exactOptional;
const line = z.array(z.number().nullable());

export const chartShape = z
  .object({
    channel: z.string(),
    unit: z.string().describe('A, kPa, V, L/s, m, Cel; empty for contact (0 or 1).'),
    fromMs: z.number(),
    stepMs: z.number(),
    low: line,
    high: line,
    mean: line,
  })
  .meta({ id: 'Chart', description: 'A channel in even steps; null where nothing was measured.' });
export type ChartAnswer = z.output<typeof chartShape>;

export const cyclesShape = z
  .object({ cycles: z.array(cycleShape), more: z.boolean().describe('True where older ones were left off.') })
  .meta({ id: 'Cycles', description: 'Cycles by the time they stopped, oldest first.' });
export type CyclesAnswer = z.output<typeof cyclesShape>;

const dayWithLevelsShape = z
  .object({
    ...dayShape.shape,
    cutInKpaMedian: opt(z.number()),
    cutOutKpaMedian: opt(z.number()),
  })
  .meta({ id: 'DayWithLevels', description: 'A day with the medians of its cycles’ cut-in and cut-out.' });
export type DayAnswer = z.output<typeof dayWithLevelsShape>;
export const daysShape = z.object({ days: z.array(dayWithLevelsShape) }).meta({ id: 'Days' });

export const baselinesShape = z.object({ baselines: z.array(baselineShape) }).meta({ id: 'Baselines' });
