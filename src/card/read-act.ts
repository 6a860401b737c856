/**
 * An act as it is written in recordings and sent by pages (contract, section 6) -> a checked act in SI. Keys that an act does not
 * have are passed over in a recording, whose other lines must not be lost for a remark, and refused from a page (`strict`).
 */
import { ALARM_KINDS } from '../../shared/words/kinds.ts';
import { ACT_KINDS } from './act.ts';
import type { Act } from './act.ts';
import type { Card } from './card.ts';
import { channelCode } from './channels.ts';
import { MOTOR_AMPS, SWITCH_PRESSURE } from './limits.ts';
import {
  choiceAt,
  firstProblem,
  lookAt,
  momentAt,
  nameAt,
  needed,
  note,
  quantityAt,
  textAt,
  valueOf,
} from './look.ts';
import type { Look } from './look.ts';
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
const LONGEST_REMARK = 500;

interface Reader {
  /** The keys of the kind beside `kind`; `by` and `text` may stand on any act: who did it, and a remark. */
  keys: readonly string[];
  /** Notes what is wrong or missing; the act it returns counts only where nothing was noted. */
  read: (look: Look, options: ReadActOptions) => Act;
}

const WELL_ONLY = ['well'] as const;

const READERS: Record<Exclude<Act['kind'], 'card-changed'>, Reader> = {
  'visit-opened': { keys: WELL_ONLY, read: (look) => ({ kind: 'visit-opened', well: wellAt(look) }) },
  'visit-closed': {
    keys: ['well', 'newBaseline'],
    read: (look) => ({ kind: 'visit-closed', well: wellAt(look), newBaseline: flagAt(look, 'newBaseline') }),
  },
  pinned: { keys: ['well', 'pump', 'amps', 'cutIn', 'cutOut'], read: pinnedOf },
  calibrated: {
    keys: ['node', 'channel', 'points'],
    read: calibratedOf,
  },
  acknowledged: {
    keys: ['well', 'pump', 'alarm'],
    read: (look) => ({ kind: 'acknowledged', well: wellAt(look), ...pumpAt(look), alarm: alarmAt(look) }),
  },
  shelved: {
    keys: ['well', 'pump', 'alarm', 'until'],
    read: (look) => ({
      kind: 'shelved',
      well: wellAt(look),
      ...pumpAt(look),
      alarm: alarmAt(look),
      untilMs: neededMomentAt(look, 'until'),
    }),
  },
  'out-of-service': { keys: WELL_ONLY, read: (look) => ({ kind: 'out-of-service', well: wellAt(look) }) },
  'back-in-service': { keys: WELL_ONLY, read: (look) => ({ kind: 'back-in-service', well: wellAt(look) }) },
  'laid-up': {
    keys: ['well', 'until'],
    read: (look) => {
      const untilMs = momentAt(look, 'until');
      return { kind: 'laid-up', well: wellAt(look), ...(untilMs !== undefined && { untilMs }) };
    },
  },
  expected: {
    keys: ['well', 'text', 'until'],
    read: (look) => ({
      kind: 'expected',
      well: wellAt(look),
      text: needed(look, 'text', textAt(look, 'text', LONGEST_REMARK)) ?? '',
      untilMs: neededMomentAt(look, 'until'),
    }),
  },
  'server-away': {
    keys: ['from'],
    read: (look) => ({ kind: 'server-away', fromMs: neededMomentAt(look, 'from') }),
  },
  tick: { keys: [], read: () => ({ kind: 'tick' }) },
};

/** The act, or one line that names the key, the rule and the value. Never throws. */
export function readAct(json: unknown, options: ReadActOptions = {}): { act: Act } | { problem: string } {
  const look = lookAt(json, undefined);
  const kind = needed(look, 'kind', choiceAt(look, 'kind', ACT_KINDS));
  if (kind === undefined)
    return { problem: firstProblem(look, 'act') ?? 'Cannot read act: kind must be given: nothing' };
  if (options.strict === true) refuseOtherKeys(look, kind === 'card-changed' ? ['card'] : READERS[kind].keys);
  if (kind === 'card-changed') return readCardChanged(look);
  const act = READERS[kind].read(look, options);
  if ('well' in act) checkPump(look, act, options.cardOf?.(act.well));
  return actUnlessProblem(look, act);
}

/** A card's problem is told as a card's, since it is the card that the person has to look at. */
function readCardChanged(look: Look): { act: Act } | { problem: string } {
  const read = readCard(valueOf(look, 'card'));
  return 'problem' in read ? read : actUnlessProblem(look, { kind: 'card-changed', card: read.card });
}

function actUnlessProblem(look: Look, act: Act): { act: Act } | { problem: string } {
  const problem = firstProblem(look, 'act');
  return problem === undefined ? { act } : { problem };
}

function refuseOtherKeys(look: Look, keys: readonly string[]): void {
  const known = ['kind', 'by', 'text', ...keys];
  for (const key of Object.keys(look.holds)) {
    if (!known.includes(key)) note(look, key, `is not known here; known are ${known.join(', ')}`);
  }
}

function wellAt(look: Look): string {
  return needed(look, 'well', nameAt(look, 'well')) ?? '';
}

function alarmAt(look: Look): string {
  return needed(look, 'alarm', choiceAt(look, 'alarm', ALARM_KINDS)) ?? '';
}

function neededMomentAt(look: Look, key: string): number {
  return needed(look, key, momentAt(look, key)) ?? 0;
}

function flagAt(look: Look, key: string): boolean {
  const value = valueOf(look, key);
  if (value !== undefined && typeof value !== 'boolean') note(look, key, 'must be true or false');
  return value === true;
}

function pumpAt(look: Look): { pump?: string } {
  const value = valueOf(look, 'pump');
  if (value === undefined) return {};
  if (typeof value === 'string' && /^p([1-9]|1[0-5])$/.test(value)) return { pump: value };
  note(look, 'pump', 'must be a pump such as p1');
  return {};
}

/** A well with one pump need not name it. At least one value must be pinned, and cut-in stays under cut-out. */
function pinnedOf(look: Look): Act {
  const well = wellAt(look);
  const amps = quantityAt(look, 'amps', 'current', MOTOR_AMPS);
  const cutInKpa = quantityAt(look, 'cutIn', 'pressure', SWITCH_PRESSURE);
  const cutOutKpa = quantityAt(look, 'cutOut', 'pressure', SWITCH_PRESSURE);
  if (amps === undefined && cutInKpa === undefined && cutOutKpa === undefined)
    note(look, 'amps', 'must be given, or cutIn, or cutOut');
  if (cutInKpa !== undefined && cutOutKpa !== undefined && cutInKpa >= cutOutKpa)
    note(look, 'cutIn', 'must be below cutOut');
  return {
    kind: 'pinned',
    well,
    pump: pumpAt(look).pump ?? 'p1',
    ...(amps !== undefined && { amps }),
    ...(cutInKpa !== undefined && { cutInKpa }),
    ...(cutOutKpa !== undefined && { cutOutKpa }),
  };
}

function channelAt(look: Look): string {
  const value = valueOf(look, 'channel');
  if (typeof value === 'string' && channelCode(value) !== undefined) return value;
  note(look, 'channel', 'must be a channel of the node (such as current or p2/current)');
  return '';
}

function calibratedOf(look: Look, { past }: ReadActOptions): Act {
  const node = needed(look, 'node', nameAt(look, 'node')) ?? '';
  const channel = channelAt(look);
  const points = pointsAt(look);
  const line = channel === '' || points.length === 0 ? undefined : twoPointCorrection(channel, points);
  if (line && 'rule' in line && past !== true) note(look, 'points', line.rule, line.value);
  return { kind: 'calibrated', node, channel, points };
}

/** Two pairs of [what the node read, what was true], in the channel's own unit. The line through them must rise. */
function pointsAt(look: Look): [number, number][] {
  const value = valueOf(look, 'points');
  const points = Array.isArray(value) ? value.map(pairOf) : [];
  const [first, second] = points;
  if (points.length !== 2 || !first || !second) {
    note(look, 'points', 'must be two pairs of numbers, [[read, true], [read, true]]');
    return [];
  }
  if ((second[0] - first[0]) * (second[1] - first[1]) > 0) return [first, second];
  note(look, 'points', 'must rise: two different readings, the higher one with the higher true value');
  return [];
}

function pairOf(value: unknown): [number, number] | undefined {
  if (!Array.isArray(value) || value.length !== 2) return undefined;
  const [read, real]: unknown[] = value;
  return typeof read === 'number' &&
    typeof real === 'number' &&
    Number.isFinite(read) &&
    Number.isFinite(real)
    ? [read, real]
    : undefined;
}

function checkPump(look: Look, act: Act, card: Card | undefined): void {
  if (!card || !('pump' in act) || act.pump === undefined) return;
  if (!card.pumps.some((pump) => pump.id === act.pump)) {
    note(
      look,
      'pump',
      `must be a pump of the card of ${card.well}, which has ${card.pumps.map((pump) => pump.id).join(', ')}`,
    );
  }
}
