/**
 * Checks: what is due on all wells and on one, what was done over the years; and water tests beside
 * the published limits.
 */
import { z } from 'zod';
import { STOCK_STEPS } from '../water/stock-levels.ts';

const opt = z.exactOptional;
const day = z.string().describe('ISO date in the well’s own time zone.');

const stateShape = z
  .enum(['overdue', 'due', 'later', 'not-recorded', 'on-hold', 'off', 'not-needed'])
  .describe(
    'not-recorded: nobody knows when it was done last. on-hold: the well stands still, nobody knows until when.',
  );

const targetShape = z
  .object({
    kpa: opt(z.number()),
    cutInKpa: opt(z.number()),
    from: opt(z.enum(['measured', 'card'])),
    reason: opt(z.string().describe('Why no target can be told.')),
  })
  .meta({ id: 'PrechargeTarget', description: 'Gauge pressures. 2 psi under cut-in.' });
export type TargetAnswer = z.output<typeof targetShape>;

const dueFields = {
  check: z.string(),
  custom: opt(z.literal(true).describe('Made by people of this well.')),
  title: z.string(),
  state: stateShape,
  dueDate: opt(day),
  lateDays: opt(z.number().int().describe('Days past its day; negative before it.')),
  proposedDate: opt(day.describe('Of one that is not recorded: a day to catch up on all of this well.')),
  reasons: z.array(z.string()),
  lastDate: opt(day),
  target: opt(targetShape),
  onHold: opt(
    z
      .object({
        is: z.enum(['laid-up', 'out-of-service']),
        sinceDate: day,
        untilDate: opt(day.describe('The last day, where it is known.')),
      })
      .meta({ id: 'OnHold', description: 'It waits, because the well stands still.' }),
  ),
};

const dueRowShape = z
  .object({ well: z.string(), site: opt(z.string()), ...dueFields })
  .meta({ id: 'DueRow' });
export type DueRowAnswer = z.output<typeof dueRowShape>;

export const dueShape = z
  .object({
    nowMs: z.number(),
    until: day,
    wells: z.number().int().describe('Wells that were looked at.'),
    due: z.array(dueRowShape).describe('By day, then well.'),
    notRecorded: z
      .array(dueRowShape)
      .describe('What nobody knows the last time of and is proposed up to that day; by day, then well.'),
    notRecordedTotal: z
      .object({ checks: z.number().int(), wells: z.number().int() })
      .describe('Those proposed for later too.'),
    onHold: z.array(dueRowShape).describe('What waits, because its well stands still.'),
  })
  .meta({ id: 'Due', description: 'What is due on all wells up to a day, overdue ones included.' });

/** `until`: a date of the calendar; or `days` from today; a month ahead where both are left out. */
export const dueQuery = z.strictObject({
  until: opt(z.iso.date()),
  days: opt(z.coerce.number().int().min(0).max(3_660)),
  well: opt(z.string().min(1).max(40)),
  site: opt(z.string().min(1).max(40)),
});

export const calendarQuery = z.strictObject({ well: opt(z.string().min(1).max(40)) });

const checkCompletionShape = z
  .object({
    id: opt(z.string().describe('The entry; absent for what is no entry, such as a calibration.')),
    atMs: z.number(),
    date: day,
    outcome: z.enum(['right', 'put-right', 'not-right', 'not-done']),
    by: opt(z.string()),
    text: opt(z.string()),
    value: opt(z.string().describe('As it was written.')),
    asLeft: opt(z.string()),
    valueSi: opt(z.number()),
    asLeftSi: opt(z.number()),
    documents: z.array(z.string()),
  })
  .meta({ id: 'CheckCompletion', description: 'A check that was done: as found and as left.' });
export type CheckCompletionAnswer = z.output<typeof checkCompletionShape>;

const checkRowShape = z
  .object({
    ...dueFields,
    why: opt(z.string()),
    how: z.array(z.string()),
    source: opt(z.string()),
    cautions: z.array(z.string()),
    text: opt(z.string().describe('What a person wrote to the plan.')),
    location: opt(z.string().describe('Where the card says that it is.')),
    recurrence: opt(
      z.union([
        z.object({ is: z.literal('days'), days: z.number().int() }),
        z.object({ is: z.literal('yearly'), day: z.string().describe('Month and day.') }),
      ]),
    ),
    value: opt(z.object({ question: z.string(), dimension: z.literal('pressure') })),
    plan: opt(z.string().describe('The entry that planned it.')),
    completions: z.array(checkCompletionShape).describe('Oldest first.'),
  })
  .meta({ id: 'CheckRow' });
export type CheckRowAnswer = z.output<typeof checkRowShape>;

export const checksShape = z
  .object({
    nowMs: z.number(),
    today: day,
    timeZone: z.string(),
    checks: z.array(checkRowShape).describe('The most pressing first; those put off or not needed last.'),
  })
  .meta({ id: 'Checks' });
export type ChecksAnswer = z.output<typeof checksShape>;

const provenance = z.enum(['verified', 'quoted', 'from-memory']);

const elsewhereLimitShape = z
  .object({
    from: z.enum(['who', 'eu']),
    max: opt(z.number()),
    min: opt(z.number()),
    absent: opt(z.literal(true)),
    provenance,
    indicator: opt(z.literal(true)),
    later: opt(z.object({ max: z.number(), on: z.string() })),
  })
  .meta({ id: 'ElsewhereLimit' });

const limitShape = z
  .object({
    kind: z.enum(['primary', 'secondary', 'treatment', 'action', 'disinfectant', 'advisory']),
    max: opt(z.number()),
    min: opt(z.number()),
    absent: opt(z.literal(true)),
    citation: z.string(),
    provenance: provenance.describe('Whether the rule was verified, quoted, or is from memory.'),
    effectiveFrom: opt(z.object({ on: z.string(), provenance })),
    effectiveUntil: opt(z.string()),
    note: opt(z.string()),
  })
  .meta({ id: 'WaterLimit', description: 'In the kept unit. A yardstick for a private well.' });
const verdictShape = z.enum(['over', 'at', 'under', 'below-range', 'cannot-tell', 'none-found']);

const resultShape = z
  .object({
    analyte: z.string().describe('As it was written.'),
    written: z.string().describe('Value and unit as they were written.'),
    key: opt(z.string()),
    name: z.string(),
    is: z.enum(['value', 'below', 'above', 'absent', 'present']),
    value: opt(z.number()),
    unit: z.string(),
    remark: opt(z.string()),
    plausibilityQuestion: opt(z.string().describe('A question about what is odd.')),
    hardnessClass: opt(z.string().describe('The class of hardness.')),
    comparisons: z.array(
      z.object({
        limit: limitShape,
        verdict: verdictShape,
        atSampling: opt(z.object({ limit: limitShape, verdict: verdictShape })),
      }),
    ),
    elsewhere: z
      .array(z.object({ limit: elsewhereLimitShape, verdict: verdictShape }))
      .describe('Beside what others publish; no advice follows from it.'),
    stock: opt(z.enum(STOCK_STEPS).describe('The step for livestock that it has reached.')),
    advice: opt(z.object({ text: z.string(), retestDate: opt(day), cautions: z.array(z.string()) })),
  })
  .meta({ id: 'WaterResult' });
export type WaterResultAnswer = z.output<typeof resultShape>;

const waterTestShape = z
  .object({
    id: z.string(),
    sampleDate: day,
    atMs: z.number(),
    by: opt(z.string()),
    laboratory: opt(z.string()),
    place: opt(z.string()),
    why: opt(z.string()),
    text: opt(z.string()),
    documents: z.array(z.string()),
    results: z.array(resultShape),
  })
  .meta({ id: 'WaterTest' });
export type WaterTestAnswer = z.output<typeof waterTestShape>;

export const waterShape = z
  .object({
    nowMs: z.number(),
    today: day,
    timeZone: z.string(),
    tests: z.array(waterTestShape).describe('Newest first.'),
    next: opt(z.object(dueFields)),
    missingYearly: z.array(z.string()).describe('What of the yearly four was not tested for a year.'),
  })
  .meta({ id: 'Water' });
export type WaterAnswer = z.output<typeof waterShape>;
