/** Checks: what is due on all wells and on one, what was done over the years; and water tests beside the published limits. */
import { z } from 'zod';

const opt = z.exactOptional;
const day = z.string().describe('ISO date in the well’s own time zone.');

const stateShape = z
  .enum(['overdue', 'due', 'later', 'unwritten', 'waits', 'off', 'not-needed'])
  .describe(
    'unwritten: nobody knows when it was done last. waits: the well stands still, nobody knows until when.',
  );

const targetShape = z
  .object({
    kpa: opt(z.number()),
    cutInKpa: opt(z.number()),
    from: opt(z.enum(['measured', 'card'])),
    why: opt(z.string().describe('Why no target can be told.')),
  })
  .meta({ id: 'PrechargeTarget', description: 'Gauge pressures. 2 psi under cut-in.' });
export type TargetAnswer = z.output<typeof targetShape>;

const dueFields = {
  check: z.string(),
  own: opt(z.literal(true).describe('Made by people of this well.')),
  title: z.string(),
  state: stateShape,
  on: opt(day),
  lateDays: opt(z.number().int().describe('Days past its day; negative before it.')),
  proposedOn: opt(day.describe('Of one that is unwritten: a day to catch up on all of this well.')),
  because: z.array(z.string()),
  lastOn: opt(day),
  target: opt(targetShape),
  atRest: opt(
    z
      .object({
        is: z.enum(['laid-up', 'out-of-service']),
        sinceOn: day,
        untilOn: opt(day.describe('The last day, where it is known.')),
      })
      .meta({ id: 'AtRest', description: 'It waits, because the well stands still.' }),
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
    unwritten: z
      .array(dueRowShape)
      .describe('What nobody knows the last time of and is proposed up to that day; by day, then well.'),
    unwrittenInAll: z
      .object({ checks: z.number().int(), wells: z.number().int() })
      .describe('Those proposed for later too.'),
    atRest: z.array(dueRowShape).describe('What waits, because its well stands still.'),
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

const timeDoneShape = z
  .object({
    id: opt(z.string().describe('The entry; absent for what is no entry, such as a calibration.')),
    atMs: z.number(),
    on: day,
    outcome: z.enum(['right', 'put-right', 'not-right', 'not-done']),
    by: opt(z.string()),
    text: opt(z.string()),
    value: opt(z.string().describe('As it was written.')),
    left: opt(z.string()),
    valueSi: opt(z.number()),
    leftSi: opt(z.number()),
    papers: z.array(z.string()),
  })
  .meta({ id: 'TimeDone', description: 'A check that was done: as found and as left.' });
export type TimeDoneAnswer = z.output<typeof timeDoneShape>;

const checkRowShape = z
  .object({
    ...dueFields,
    why: opt(z.string()),
    how: z.array(z.string()),
    source: opt(z.string()),
    cautions: z.array(z.string()),
    text: opt(z.string().describe('What a person wrote to the plan.')),
    where: opt(z.string().describe('Where the card says that it is.')),
    round: opt(
      z.union([
        z.object({ is: z.literal('days'), days: z.number().int() }),
        z.object({ is: z.literal('on'), day: z.string().describe('Month and day.') }),
      ]),
    ),
    value: opt(z.object({ asks: z.string(), dimension: z.literal('pressure') })),
    plan: opt(z.string().describe('The entry that planned it.')),
    done: z.array(timeDoneShape).describe('Oldest first.'),
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

const limitShape = z
  .object({
    kind: z.enum(['primary', 'secondary', 'treatment', 'action', 'disinfectant', 'advisory']),
    most: opt(z.number()),
    least: opt(z.number()),
    absent: opt(z.literal(true)),
    where: z.string(),
    known: z
      .enum(['read', 'quoted', 'memory'])
      .describe('Whether the rule was read, quoted, or is from memory.'),
    from: opt(z.object({ on: z.string(), known: z.enum(['read', 'quoted', 'memory']) })),
    until: opt(z.string()),
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
    odd: opt(z.string().describe('A question about what is odd.')),
    word: opt(z.string().describe('The class of hardness.')),
    compared: z.array(
      z.object({
        limit: limitShape,
        verdict: verdictShape,
        whenDrawn: opt(z.object({ limit: limitShape, verdict: verdictShape })),
      }),
    ),
    advice: opt(z.object({ says: z.string(), againOn: opt(day), cautions: z.array(z.string()) })),
  })
  .meta({ id: 'WaterResult' });
export type WaterResultAnswer = z.output<typeof resultShape>;

const waterTestShape = z
  .object({
    id: z.string(),
    on: day,
    atMs: z.number(),
    by: opt(z.string()),
    laboratory: opt(z.string()),
    place: opt(z.string()),
    why: opt(z.string()),
    text: opt(z.string()),
    papers: z.array(z.string()),
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
    askFor: z.array(z.string()).describe('What of the yearly four was not tested for a year.'),
  })
  .meta({ id: 'Water' });
export type WaterAnswer = z.output<typeof waterShape>;
