/**
 * An act as it is written in recordings and sent by pages (contract, section 6) -> a checked act in SI. Keys that an act does not
 * have are passed over in a recording, whose other lines must not be lost for a remark, and refused from a page (`strict`).
 */
import { ALARM_KINDS } from '../../../shared/text/en/alarms/kinds.ts';
import { ACT_KINDS } from './act.ts';
import type { Act } from './act.ts';
import type { Card } from './card.ts';
import { channelCode } from './channels.ts';
import { MOTOR_AMPS, SWITCH_PRESSURE } from '../../../shared/card/limits.ts';
import {
  choiceAt,
  formatFirstIssue,
  rootContext,
  momentAt,
  nameAt,
  required,
  addIssue,
  quantityAt,
  textAt,
  fieldValue,
} from './parse-context.ts';
import type { ParseContext } from './parse-context.ts';
import { readCard } from './read-card.ts';
import { twoPointCorrection } from './two-point.ts';

export interface ReadActOptions {
  /** The card of a well, where known: a pump that it has not is then refused. */
  cardOf?: (well: string) => Card | undefined;
  /** Refuse unknown keys. */
  strict?: boolean;
  /**
   * The act is one of a past that was kept elsewhere: a calibration whose line no reading can be corrected by is read as it was
   * written. The engine passes it over; the rest of that past must not be lost for it.
   */
  past?: boolean;
}

/** Longest remark: a few sentences. */
const MAX_REMARK_CHARACTERS = 500;

interface ActReader {
  /** The keys of the kind beside `kind`; `by` and `text` may stand on any act: who did it, and a remark. */
  keys: readonly string[];
  /** Notes what is wrong or missing; the act it returns counts only where nothing was noted. */
  read: (look: ParseContext, options: ReadActOptions) => Act;
}

const WELL_ONLY = ['well'] as const;

const ACT_READERS: Record<Exclude<Act['kind'], 'card-changed'>, ActReader> = {
  'visit-opened': { keys: WELL_ONLY, read: (context) => ({ kind: 'visit-opened', well: wellAt(context) }) },
  'visit-closed': {
    keys: ['well', 'newBaseline'],
    read: (context) => ({
      kind: 'visit-closed',
      well: wellAt(context),
      newBaseline: flagAt(context, 'newBaseline'),
    }),
  },
  pinned: { keys: ['well', 'pump', 'amps', 'cutIn', 'cutOut'], read: readPinned },
  calibrated: {
    keys: ['node', 'channel', 'points'],
    read: calibratedOf,
  },
  acknowledged: {
    keys: ['well', 'pump', 'alarm'],
    read: (context) => ({
      kind: 'acknowledged',
      well: wellAt(context),
      ...pumpAt(context),
      alarm: alarmAt(context),
    }),
  },
  shelved: {
    keys: ['well', 'pump', 'alarm', 'until'],
    read: (context) => ({
      kind: 'shelved',
      well: wellAt(context),
      ...pumpAt(context),
      alarm: alarmAt(context),
      untilMs: requiredMomentAt(context, 'until'),
    }),
  },
  'out-of-service': {
    keys: WELL_ONLY,
    read: (context) => ({ kind: 'out-of-service', well: wellAt(context) }),
  },
  'back-in-service': {
    keys: WELL_ONLY,
    read: (context) => ({ kind: 'back-in-service', well: wellAt(context) }),
  },
  'laid-up': {
    keys: ['well', 'until'],
    read: (context) => {
      const untilMs = momentAt(context, 'until');
      return { kind: 'laid-up', well: wellAt(context), ...(untilMs !== undefined && { untilMs }) };
    },
  },
  expected: {
    keys: ['well', 'text', 'until'],
    read: (context) => ({
      kind: 'expected',
      well: wellAt(context),
      text: required(context, 'text', textAt(context, 'text', MAX_REMARK_CHARACTERS)) ?? '',
      untilMs: requiredMomentAt(context, 'until'),
    }),
  },
  'server-away': {
    keys: ['from'],
    read: (context) => ({ kind: 'server-away', fromMs: requiredMomentAt(context, 'from') }),
  },
  tick: { keys: [], read: () => ({ kind: 'tick' }) },
};

/** The act, or one line that names the key, the rule and the value. Never throws. */
export function readAct(json: unknown, options: ReadActOptions = {}): { act: Act } | { problem: string } {
  const context = rootContext(json, undefined);
  const kind = required(context, 'kind', choiceAt(context, 'kind', ACT_KINDS));
  if (kind === undefined)
    return { problem: formatFirstIssue(context, 'act') ?? 'Cannot read act: kind must be given: nothing' };
  if (options.strict === true)
    rejectUnknownKeys(context, kind === 'card-changed' ? ['card'] : ACT_READERS[kind].keys);
  if (kind === 'card-changed') return readCardChanged(context);
  const act = ACT_READERS[kind].read(context, options);
  if ('well' in act) checkPump(context, act, options.cardOf?.(act.well));
  return actOrProblem(context, act);
}

/** A card's problem is told as a card's, since it is the card that the person has to look at. */
function readCardChanged(context: ParseContext): { act: Act } | { problem: string } {
  const read = readCard(fieldValue(context, 'card'));
  return 'problem' in read ? read : actOrProblem(context, { kind: 'card-changed', card: read.card });
}

function actOrProblem(context: ParseContext, act: Act): { act: Act } | { problem: string } {
  const problem = formatFirstIssue(context, 'act');
  return problem === undefined ? { act } : { problem };
}

function rejectUnknownKeys(context: ParseContext, keys: readonly string[]): void {
  const known = ['kind', 'by', 'text', ...keys];
  for (const key of Object.keys(context.fields)) {
    if (!known.includes(key)) addIssue(context, key, `is not known here; known are ${known.join(', ')}`);
  }
}

function wellAt(context: ParseContext): string {
  return required(context, 'well', nameAt(context, 'well')) ?? '';
}

function alarmAt(context: ParseContext): string {
  return required(context, 'alarm', choiceAt(context, 'alarm', ALARM_KINDS)) ?? '';
}

function requiredMomentAt(context: ParseContext, key: string): number {
  return required(context, key, momentAt(context, key)) ?? 0;
}

function flagAt(context: ParseContext, key: string): boolean {
  const value = fieldValue(context, key);
  if (value !== undefined && typeof value !== 'boolean') addIssue(context, key, 'must be true or false');
  return value === true;
}

function pumpAt(context: ParseContext): { pump?: string } {
  const value = fieldValue(context, 'pump');
  if (value === undefined) return {};
  if (typeof value === 'string' && /^p([1-9]|1[0-5])$/.test(value)) return { pump: value };
  addIssue(context, 'pump', 'must be a pump such as p1');
  return {};
}

/** A well with one pump need not name it. At least one value must be pinned, and cut-in stays under cut-out. */
function readPinned(context: ParseContext): Act {
  const well = wellAt(context);
  const amps = quantityAt(context, 'amps', 'current', MOTOR_AMPS);
  const cutInKpa = quantityAt(context, 'cutIn', 'pressure', SWITCH_PRESSURE);
  const cutOutKpa = quantityAt(context, 'cutOut', 'pressure', SWITCH_PRESSURE);
  if (amps === undefined && cutInKpa === undefined && cutOutKpa === undefined)
    addIssue(context, 'amps', 'must be given, or cutIn, or cutOut');
  if (cutInKpa !== undefined && cutOutKpa !== undefined && cutInKpa >= cutOutKpa)
    addIssue(context, 'cutIn', 'must be below cutOut');
  return {
    kind: 'pinned',
    well,
    pump: pumpAt(context).pump ?? 'p1',
    ...(amps !== undefined && { amps }),
    ...(cutInKpa !== undefined && { cutInKpa }),
    ...(cutOutKpa !== undefined && { cutOutKpa }),
  };
}

function channelAt(context: ParseContext): string {
  const value = fieldValue(context, 'channel');
  if (typeof value === 'string' && channelCode(value) !== undefined) return value;
  addIssue(context, 'channel', 'must be a channel of the node (such as current or p2/current)');
  return '';
}

function calibratedOf(look: ParseContext, { past }: ReadActOptions): Act {
  const node = required(look, 'node', nameAt(look, 'node')) ?? '';
  const channel = channelAt(look);
  const points = pointsAt(look);
  const line = channel === '' || points.length === 0 ? undefined : twoPointCorrection(channel, points);
  if (line && 'rule' in line && past !== true) addIssue(look, 'points', line.rule, line.value);
  return { kind: 'calibrated', node, channel, points };
}

/** Two pairs of [what the node read, what was true], in the channel's own unit. The line through them must rise. */
function pointsAt(context: ParseContext): [number, number][] {
  const value = fieldValue(context, 'points');
  const points = Array.isArray(value) ? value.map(readPair) : [];
  const [first, second] = points;
  if (points.length !== 2 || !first || !second) {
    addIssue(context, 'points', 'must be two pairs of numbers, [[read, true], [read, true]]');
    return [];
  }
  if ((second[0] - first[0]) * (second[1] - first[1]) > 0) return [first, second];
  addIssue(context, 'points', 'must rise: two different readings, the higher one with the higher true value');
  return [];
}

function readPair(value: unknown): [number, number] | undefined {
  if (!Array.isArray(value) || value.length !== 2) return undefined;
  const [read, real]: unknown[] = value;
  return typeof read === 'number' &&
    typeof real === 'number' &&
    Number.isFinite(read) &&
    Number.isFinite(real)
    ? [read, real]
    : undefined;
}

function checkPump(context: ParseContext, act: Act, card: Card | undefined): void {
  if (!card || !('pump' in act) || act.pump === undefined) return;
  if (!card.pumps.some((pump) => pump.id === act.pump)) {
    addIssue(
      context,
      'pump',
      `must be a pump of the card of ${card.well}, which has ${card.pumps.map((pump) => pump.id).join(', ')}`,
    );
  }
}
