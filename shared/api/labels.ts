/**
 * The labels of a well: what is to be printed on each, in both unit systems, with blanks where
 * nothing is known. Drawing them is the page's work.
 */
import { z } from 'zod';
import { LABEL_KINDS } from '../text/en/label-words.ts';

const opt = z.exactOptional;

const labelLineShape = z
  .object({
    name: z.string(),
    value: opt(z.string().describe('Absent: a ruled blank to fill in by hand.')),
    detail: opt(z.string().describe('What was measured where the value is written, or how it was found.')),
    prominent: opt(z.literal(true).describe('To be read from an arm’s length.')),
  })
  .meta({ id: 'LabelLine' });
export type LabelLine = z.output<typeof labelLineShape>;

const labelShape = z
  .object({
    id: z.string().describe('The kind, and the pump where there are several.'),
    kind: z.enum(LABEL_KINDS),
    title: z.string(),
    well: z.string(),
    location: opt(z.string().describe('Where it hangs, as the card says.')),
    lines: z.array(labelLineShape).describe('The most important first.'),
    caution: z.string(),
    plainText: z
      .array(z.string())
      .describe('The facts as plain text for the code, the most important first.'),
    madeOn: z.string().describe('Local date.'),
  })
  .meta({ id: 'Label' });
export type Label = z.output<typeof labelShape>;

export const labelsShape = z
  .object({ us: z.array(labelShape), metric: z.array(labelShape) })
  .meta({ id: 'Labels', description: 'The same labels with US and with metric units.' });
