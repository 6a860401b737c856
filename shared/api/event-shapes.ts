/**
 * The zod shapes of the engine's four lines (./events.ts), for the API document and for tests of
 * answers. The interfaces there stay the source; `tests/http/shapes.test.ts` holds that shape and
 * interface say the same in both directions.
 */
import { z } from 'zod';
import { ALARM_KINDS, CAUSES, PRIORITIES } from '../text/en/alarms/kinds.ts';
import { CYCLE_FLAGS } from './events.ts';

const opt = z.exactOptional;

export const priorityShape = z
  .enum(PRIORITIES)
  .meta({ id: 'Priority', description: 'How soon a person should act.' });
export const alarmKindShape = z.enum(ALARM_KINDS).meta({ id: 'AlarmKind' });
export const causeShape = z
  .object({ cause: z.enum(CAUSES), weight: z.number().min(0).max(1) })
  .meta({ id: 'WeighedCause', description: 'A probable cause and how much of the evidence speaks for it.' });

export const cycleShape = z
  .object({
    event: z.literal('cycle'),
    well: z.string(),
    pump: z.string(),
    started: z.string(),
    stopped: z.string(),
    ranS: z.number(),
    restedS: opt(z.number()),
    amps: opt(z.number()),
    amps2: opt(z.number()),
    amps3: opt(z.number()),
    startAmps: opt(z.number()),
    cutInKpa: opt(z.number()),
    cutOutKpa: opt(z.number()),
    riseDelayS: opt(z.number()),
    deliveredL: opt(z.number()),
    energyWh: opt(z.number()),
    flags: z.array(z.enum(CYCLE_FLAGS)),
  })
  .meta({
    id: 'Cycle',
    description: 'One run and the rest before it. What could not be measured is absent.',
  });

export const dayShape = z
  .object({
    event: z.literal('day'),
    well: z.string(),
    pump: opt(z.string()),
    date: z.string(),
    cycles: opt(z.number()),
    ranS: opt(z.number()),
    heardS: opt(z.number()),
    ampsMedian: opt(z.number()),
    usedL: opt(z.number()),
    leakLPerDay: opt(z.number()),
  })
  .meta({ id: 'Day', description: 'One local day of one pump, or of the whole well where it has several.' });

export const baselineShape = z
  .object({
    event: z.literal('baseline'),
    well: z.string(),
    pump: z.string(),
    at: z.string(),
    amps: opt(z.number()),
    ampsSpread: opt(z.number()),
    cutInKpa: opt(z.number()),
    cutOutKpa: opt(z.number()),
    ranS: opt(z.number()),
    cyclesPerDay: opt(z.number()),
    pinned: opt(z.literal(true)),
    noneBecause: opt(z.string()),
  })
  .meta({ id: 'Baseline', description: 'What is normal for this pump, as learnt or pinned at that time.' });

export const evidenceShape = z.record(z.string(), z.union([z.number(), z.string()]));

export const figuresShape = z
  .record(
    z.string(),
    z.union([z.number(), z.string(), z.boolean(), z.array(z.number()), z.array(z.string())]),
  )
  .describe('Figures of the reason, in SI.');

export const alarmEventShape = z
  .object({
    event: z.literal('alarm'),
    well: opt(z.string()),
    site: opt(z.string()),
    pump: opt(z.string()),
    node: opt(z.string()),
    alarm: alarmKindShape,
    state: z.enum(['raised', 'changed', 'cleared', 'withdrawn']),
    at: z.string(),
    since: opt(z.string()),
    priority: opt(priorityShape),
    reason: opt(z.string()).describe('Why it is active: a name whose figures follow.'),
    figures: opt(figuresShape),
    why: opt(z.string()),
    evidence: opt(evidenceShape),
    causes: opt(z.array(causeShape)),
  })
  .meta({ id: 'AlarmEvent', description: 'A change of an alarm, as it was told.' });
