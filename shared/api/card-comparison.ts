/**
 * What was measured beside what is written on the card (src/logbook/readings/card-comparison.ts
 * makes it, shared/text/en/checks/measured-text.ts says it).
 */
import { z } from 'zod';
import { DIMENSIONS } from '../quantity/units.ts';

const opt = z.exactOptional;

const figureShape = z
  .object({
    value: z.number().describe('SI.'),
    atMs: z.number(),
    from: z
      .enum(['learned', 'pinned', 'sensors', 'hand'])
      .describe(
        'What is usual by the readings; pinned as normal; read off the sensors at one time; brought by a person.',
      ),
    by: opt(z.string()),
  })
  .meta({ id: 'MeasuredFigure' });
export type MeasuredFigure = z.output<typeof figureShape>;

export const comparisonShape = z
  .object({
    key: z.string().describe('The field of the card, as "switch.cutIn" or "pumps.p2.pump.maxAmps".'),
    dimension: z.enum(DIMENSIONS),
    written: opt(z.number().describe('SI.')),
    measured: z.array(figureShape).describe('Newest first; at least one.'),
    rule: z
      .enum(['equal', 'max', 'none'])
      .describe(
        'The written figure should be met, is a most that should not be passed, or is no measure of it.',
      ),
    differs: opt(z.boolean().describe('Whether the newest is off; absent where it is not judged.')),
  })
  .meta({ id: 'CardComparison', description: 'One figure of the card, and what was measured of it.' });
export type CardComparison = z.output<typeof comparisonShape>;
