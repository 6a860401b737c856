/**
 * A well as the list and its page show it: what it does now, what stands against it, and the same
 * said in words in both unit systems. Times are Unix ms; quantities SI with the unit in the name;
 * what is not known is absent.
 */
import { z } from 'zod';
import { CARD, PUMP } from '../card/card-fields.ts';
import { checkShape } from './checks.ts';
import { alarmShape, symptomShape } from './alarms.ts';
import { baselineShape, cycleShape } from './event-shapes.ts';

const opt = z.exactOptional;

const MODES = ['watching', 'learning', 'visit', 'out-of-service', 'laid-up'] as const;
export type Mode = (typeof MODES)[number];

/** What a person should make of a well, worst first: the order of the list. */
const ATTENTIONS = ['now', 'soon', 'no-data', 'note', 'visit', 'learning', 'normal', 'not-in-use'] as const;
export type Attention = (typeof ATTENTIONS)[number];

const pumpStatusShape = z
  .object({
    pump: z.string(),
    running: opt(z.boolean().describe('Absent where it cannot be told.')),
    sinceMs: opt(z.number().describe('Since when it runs or rests.')),
    longestRunS: opt(z.number().describe('The longest run of the days learned; absent in the first week.')),
    amps: opt(z.number().describe('The last reading of line 1.')),
    startsToday: z.number().int(),
    ranTodayS: z.number(),
  })
  .meta({ id: 'PumpStatus' });
export type PumpStatus = z.output<typeof pumpStatusShape>;

const recentDayShape = z
  .object({ date: z.string(), ranS: opt(z.number()), cycles: opt(z.number()), heardS: opt(z.number()) })
  .meta({ id: 'RecentDay', description: 'One local day of all pumps of the well together.' });
export type RecentDay = z.output<typeof recentDayShape>;

const wellStatusFields = {
  well: z.string(),
  site: opt(z.string()),
  timeZone: z.string(),
  uses: z.array(z.enum(CARD.use.options)),
  mode: z.enum(MODES),
  modeSinceMs: opt(z.number()),
  modeUntilMs: opt(z.number()),
  expected: opt(z.object({ text: z.string(), untilMs: z.number() })),
  lastReadingMs: opt(z.number().describe('Time of the newest reading.')),
  pressureKpa: opt(z.number().describe('The last reading at the tank tee.')),
  pumps: z.array(pumpStatusShape),
  symptoms: opt(
    z.array(symptomShape).describe('What stands too and is explained by an alarm that was told.'),
  ),
};
const wellStatusShape = z.object(wellStatusFields).meta({ id: 'WellStatus' });
/** What the run loop knows of a well at this moment. */
export type WellStatus = z.output<typeof wellStatusShape>;

const textInBothUnitsShape = z
  .object({ us: z.string(), metric: z.string() })
  .meta({ id: 'InBothUnits', description: 'The same sentence with US and with metric units.' });

const wellFields = {
  ...wellStatusFields,
  attention: z.enum(ATTENTIONS),
  headline: textInBothUnitsShape,
  activity: textInBothUnitsShape,
  activeAlarms: z.array(alarmShape),
};
const wellShape = z
  .object({
    ...wellFields,
    recentDays: z.array(recentDayShape),
    normalRanS: opt(z.number().describe('Run time of a usual day, all pumps together.')),
  })
  .meta({ id: 'Well', description: 'A well with its state in words.' });
export type WellAnswer = z.output<typeof wellShape>;

export const wellSummaryShape = z.object(wellFields).meta({ id: 'WellSummary' });
export type WellSummary = z.output<typeof wellSummaryShape>;

export const wellsShape = z
  .object({
    nowMs: z.number(),
    version: z.string(),
    pendingNodes: z.number().int(),
    siteAlarms: z.array(alarmShape).describe('Active alarms of whole sites.'),
    wells: z.array(wellShape),
  })
  .meta({ id: 'Wells' });
export type WellsAnswer = z.output<typeof wellsShape>;

const line = z.array(z.number().nullable());
const runShape = z
  .object({ everyS: z.number(), amps: line, kpa: line })
  .meta({ id: 'RunShape', description: 'The course of one run in even steps from its start.' });
const normalRunShape = z
  .object({ everyS: z.number(), amps: line, ampsSpread: line, kpa: line, kpaSpread: line })
  .meta({ id: 'NormalRun', description: 'The usual course of a run: median and spread (1.4826 x MAD).' });
export type NormalRun = z.output<typeof normalRunShape>;

const pumpDetailShape = z
  .object({
    pump: z.string(),
    control: z.string(),
    kind: opt(z.enum(PUMP.kind.options)),
    motorW: opt(z.number()),
    volts: opt(z.number()),
    phase: opt(z.number()),
    wires: opt(z.number()),
    ratedLPerS: opt(z.number()),
    setDepthM: opt(z.number()),
    installed: opt(z.string().describe('ISO date.')),
    maxAmps: opt(z.number()),
    baseline: opt(baselineShape),
    previousBaseline: opt(
      baselineShape.describe('What was normal before the last visit that began a new normal.'),
    ),
    normalRun: opt(normalRunShape),
    lastCycle: opt(cycleShape),
    lastRun: opt(runShape),
  })
  .meta({ id: 'PumpDetail' });
export type PumpDetail = z.output<typeof pumpDetailShape>;

const sensorShape = z
  .object({
    channel: z.string(),
    node: z.string(),
    lastMs: opt(z.number()),
    fault: opt(z.enum(['low', 'high', 'bad'])),
    correction: opt(
      z
        .object({ gain: z.number(), offset: z.number() })
        .describe('The calibration in force, in the wire’s unit.'),
    ),
  })
  .meta({ id: 'Sensor', description: 'One channel of the well and the node it comes from.' });

const cardFactsShape = z
  .object({
    altitudeM: opt(z.number()),
    cutInKpa: opt(z.number()),
    cutOutKpa: opt(z.number()),
    lowCutOffKpa: opt(z.number()),
    reliefKpa: opt(z.number()),
    tankKind: opt(z.enum(['captive-air', 'plain'])),
    tankL: opt(z.number()),
    prechargeKpa: opt(z.number()),
    setDepthM: opt(z.number()),
  })
  .meta({ id: 'CardFacts', description: 'What the card says of the well, in SI.' });

const cardNamesShape = z
  .object({
    firm: opt(z.string()),
    breaker: opt(z.string()),
    panel: opt(z.string()),
    shutOff: opt(z.string()),
  })
  .meta({ id: 'CardNames', description: 'Whom to call and where to switch off, as the card says.' });

export const wellDetailShape = z
  .object({
    nowMs: z.number(),
    well: wellShape,
    card: cardFactsShape,
    names: cardNamesShape,
    pumps: z.array(pumpDetailShape),
    sensors: z.array(sensorShape),
    checks: z.array(checkShape),
  })
  .meta({ id: 'WellDetail' });
export type WellDetail = z.output<typeof wellDetailShape>;
