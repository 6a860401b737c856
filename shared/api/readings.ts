/**
 * Reference readings: a run followed with a guide, readings over the years, and a measured draw.
 */
import { z } from 'zod';
import { LEADS } from '../entries/entry-fields.ts';
import { DIMENSIONS } from '../quantity/units.ts';
import { queryTexts as texts } from '../schema/texts.ts';
import { motorFactsShape, MOTOR_JUDGEMENTS } from './figures/motor-readings.ts';

const opt = z.exactOptional;
const pump = z.string().regex(/^p([1-9]|1[0-5])$/, { error: () => texts().mustBeAPump });

export const guidedRunQuery = z.strictObject({
  since: z
    .string()
    .regex(/^\d{1,15}$/, { error: () => texts().mustBeUnixMs })
    .transform(Number),
  pump,
});

const guidedReadingShape = z.object({
  kind: z.enum(['amps', 'cut-in', 'cut-out', 'fill-time']),
  si: z.number(),
  phase: opt(z.union([z.literal(2), z.literal(3)])),
});
export type GuidedReadingAnswer = z.output<typeof guidedReadingShape>;

const guidedRunStateShape = z
  .discriminatedUnion('is', [
    z.object({ is: z.literal('no-data'), silentS: opt(z.number()) }),
    z.object({ is: z.literal('already-running'), ranS: opt(z.number()) }),
    z.object({ is: z.literal('waiting'), waitedS: z.number() }),
    z.object({ is: z.literal('running'), ranS: z.number(), long: z.boolean() }),
    z.object({ is: z.literal('unusable'), reason: z.enum(['gap', 'failed-start']) }),
    z.object({ is: z.literal('timed-out'), reason: z.enum(['no-data', 'no-start', 'no-stop']) }),
    z.object({
      is: z.literal('done'),
      started: z.string(),
      stopped: z.string(),
      readings: z.array(guidedReadingShape),
      missing: z.array(
        z.object({
          kind: guidedReadingShape.shape.kind,
          reason: z.enum(['no-sensor', 'not-reached', 'not-by-pressure']),
        }),
      ),
      coarse: z.boolean(),
    }),
  ])
  .meta({ id: 'GuidedRunState' });
export type GuidedRunState = z.output<typeof guidedRunStateShape>;

const clampReadingShape = z
  .object({
    node: z.string(),
    channel: z.string(),
    readA: z.number().describe('Median of the last 10 s as the node sent it.'),
    amps: z.number().describe('The same with the calibration in force.'),
    count: z.number().int(),
    stepA: opt(z.number().describe('The node’s resolution, where it said one.')),
  })
  .meta({ id: 'ClampReading' });
export type ClampReading = z.output<typeof clampReadingShape>;

export const guidedRunShape = z
  .object({
    nowMs: z.number(),
    pump: z.string(),
    run: guidedRunStateShape,
    text: z.string().describe('How far it is.'),
    action: z.string().describe('What to do next; empty where there is nothing to do.'),
    pressureKpa: opt(z.number()),
    clamp: opt(clampReadingShape),
  })
  .meta({ id: 'GuidedRun' });
export type GuidedRunAnswer = z.output<typeof guidedRunShape>;

const rowShape = z.object({
  id: z.string(),
  atMs: z.number(),
  si: z.number(),
  value: z.string().describe('As it was written.'),
  by: opt(z.string()),
  instrument: opt(z.string()),
  from: opt(z.enum(['hand', 'sensors'])),
  text: opt(z.string()),
  documents: z.array(z.string()),
  pinned: z.boolean(),
  difference: opt(z.number().describe('Less the pinned one before it.')),
  motor: opt(motorFactsShape),
});
export type ReadingRowAnswer = z.output<typeof rowShape>;

const groupShape = z
  .object({
    kind: z.string(),
    dimension: z.enum(DIMENSIONS),
    pump: opt(z.string()),
    location: opt(z.string()),
    leads: opt(z.enum(LEADS)),
    motor: opt(z.enum(['in-water', 'out-of-water'])),
    capacitor: opt(z.enum(['start', 'run'])),
    rows: z.array(rowShape).describe('Oldest first.'),
    pinnedId: opt(z.string().describe('The row that the later ones are held against.')),
    recent: opt(
      z
        .object({ si: z.number(), spread: z.number(), count: z.number().int() })
        .describe('What the sensors show in the last week’s runs.'),
    ),
  })
  .meta({ id: 'ReadingGroup', description: 'Readings of one thing over the years.' });
export type ReadingGroupAnswer = z.output<typeof groupShape>;

const point = z.tuple([z.number(), z.number()]);
const calibrationShape = z
  .object({
    pump: z.string(),
    node: z.string(),
    channel: z.string(),
    pairs: z.number().int(),
    points: opt(z.tuple([point, point])),
    usesZero: opt(z.boolean()),
    reason: opt(z.enum(['no-pair', 'one-load', 'does-not-rise'])),
  })
  .meta({
    id: 'CalibrationPoints',
    description: 'What the node read and the meter showed, since the last calibration.',
  });
export type CalibrationAnswer = z.output<typeof calibrationShape>;

const windingsShape = z
  .object({
    pump: z.string(),
    atMs: z.number(),
    yellowBlack: z.number(),
    yellowRed: z.number(),
    redBlack: z.number(),
    wireOhm: opt(z.number().describe('Taken off each of them.')),
    judgement: z.enum(MOTOR_JUDGEMENTS),
  })
  .meta({ id: 'WindingSet', description: 'The newest ohms between the three leads of a motor, of one day.' });
export type WindingSetAnswer = z.output<typeof windingsShape>;

export const readingsShape = z
  .object({
    nowMs: z.number(),
    groups: z.array(groupShape),
    windings: z.array(windingsShape),
    calibration: z.array(calibrationShape),
  })
  .meta({ id: 'Readings' });

const quantity = z.string().min(1).max(40).describe('With its unit.');
export const drawQuery = z.strictObject({
  drawn: quantity,
  before: quantity,
  after: quantity,
  fellAway: opt(z.enum(['true', 'false']).transform((text) => text === 'true')),
});
export const drawShape = z
  .object({
    found: z.boolean(),
    prechargeKpa: opt(z.number().describe('Gauge; absent without the tank’s size on the card.')),
    tankL: opt(z.number()),
    errorRatio: opt(z.number()),
    ranEmpty: opt(z.boolean()),
    altitudeKnown: z.boolean(),
    reason: opt(z.enum(['pressure-did-not-fall', 'fell-too-little', 'more-than-the-tank', 'no-tank-size'])),
  })
  .meta({ id: 'MeasuredDraw', description: 'A tank’s air charge from one measured draw.' });
export type DrawAnswer = z.output<typeof drawShape>;
