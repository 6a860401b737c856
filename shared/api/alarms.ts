/**
 * An alarm as people see it, one for its whole life, and the questions that acknowledge or shelve
 * it.
 */
import { z } from 'zod';
import { alarmKindShape, causeShape, evidenceShape, figuresShape, priorityShape } from './event-shapes.ts';

const opt = z.exactOptional;

export const alarmShape = z
  .object({
    id: z.string(),
    well: opt(z.string()),
    site: opt(z.string()),
    pump: opt(z.string()),
    node: opt(z.string()),
    alarm: alarmKindShape,
    priority: priorityShape,
    /** Lifecycle state, by the name the alarm standards give it. */
    state: z.string(),
    active: z.boolean(),
    sinceMs: z.number(),
    raisedMs: z.number(),
    clearedMs: opt(z.number()),
    withdrawnMs: opt(z.number()),
    acknowledgedMs: opt(z.number()),
    acknowledgedBy: opt(z.string()),
    shelvedUntilMs: opt(z.number()),
    imported: opt(z.literal(true)).describe(
      'Told by the Stillwell that watched the well before; how it went on is not known here.',
    ),
    reason: z.string().describe('Why it is active, by name; `figures` are its figures.'),
    figures: figuresShape,
    why: z.string().describe('The reason as a sentence, in US and metric units.'),
    evidence: evidenceShape,
    causes: z.array(causeShape),
  })
  .meta({ id: 'Alarm', description: 'An alarm from raised to cleared or withdrawn.' });
export type AlarmAnswer = z.output<typeof alarmShape>;

export const symptomShape = z
  .object({
    alarm: alarmKindShape,
    pump: opt(z.string()),
    symptomOf: alarmKindShape,
    sinceMs: z.number(),
    reason: z.string(),
    figures: figuresShape,
    why: z.string(),
    notified: z.boolean().describe('It was told before what explains it was found.'),
  })
  .meta({ id: 'Symptom', description: 'What stands too and is explained by another alarm.' });
export type SymptomAnswer = z.output<typeof symptomShape>;

export const alarmsShape = z.object({ alarms: z.array(alarmShape) }).meta({ id: 'Alarms' });

export const evaluationShape = z
  .object({
    alarm: alarmKindShape,
    pump: opt(z.string()),
    is: z.enum(['active', 'clear', 'cannot-tell']),
    because: opt(z.string()).describe('Why it cannot tell, by name.'),
    text: z.string().describe('The same in words.'),
  })
  .meta({ id: 'Evaluation', description: 'What the watch of one kind of alarm said last.' });
export type EvaluationAnswer = z.output<typeof evaluationShape>;

export const evaluationsShape = z
  .object({ evaluations: z.array(evaluationShape) })
  .meta({ id: 'Evaluations' });

const byShape = z.string().trim().min(1).max(80).describe('Who does it, as they call themselves.');

export const acknowledgeShape = z.strictObject({ by: opt(byShape) }).meta({ id: 'AcknowledgeRequest' });
export const shelveShape = z
  .strictObject({
    by: opt(byShape),
    untilMs: z.number().int().describe('Until when, Unix ms; within 30 days.'),
  })
  .meta({ id: 'ShelveRequest' });
