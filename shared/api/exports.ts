/** A well's packet: all that is known of it, to be handed over (src/logbook/export/). */
import { z } from 'zod';

const opt = z.exactOptional;

export const exportQuery = z.strictObject({
  units: opt(z.enum(['us', 'metric'])).describe('Of the page; those of the card where not given.'),
});

export const importQuery = z.strictObject({
  sameWell: opt(z.enum(['true', 'false']).transform((text) => text === 'true')).describe(
    'The well of this name here is the same one, though nothing in the export is known here.',
  ),
  by: opt(z.string().trim().min(1).max(80)),
});

const m = z.number().describe('Metres down from the ground.');
/** What the drawing of a well shows (shared/drawing/section.ts). */
export const sectionShape = z
  .object({
    wellDepthM: opt(m),
    casingDepthM: opt(m),
    casingMaterial: opt(z.string()),
    staticLevelM: opt(m),
    pumpingLevelM: opt(m),
    setDepthM: opt(m),
    pump: opt(z.enum(['in-the-well', 'above-ground'])),
    pumpText: opt(z.string()),
    dropPipeText: opt(z.string()),
    checkValvesM: z.array(m),
    checkValveLocations: z.array(z.string()),
    tankText: opt(z.string()),
    switchText: opt(z.string()),
  })
  .meta({
    id: 'Section',
    description: 'The well in section, from its card and the newest readings of its levels.',
  });
export const sectionQuery = z.strictObject({
  units: z.enum(['us', 'metric']).describe('Of what is said in words.'),
});

const count = z.number().int();
export const importResultShape = z
  .object({
    well: z.string(),
    isNew: z.boolean().describe('It was not known here.'),
    added: z.object({
      acts: count,
      entries: count,
      documents: count,
      baselines: count,
      days: count,
      cycles: count,
      alarms: count,
    }),
    missing: z.array(z.string()).describe('Papers that did not come with it, by name.'),
    summary: z.array(z.string()).describe('The same in sentences.'),
  })
  .meta({ id: 'ImportResult', description: 'What an import brought that was not known here.' });
