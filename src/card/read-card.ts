/**
 * A card as people write it (contract, section 5) -> a checked card in SI. An unknown key, a wrong unit or an impossible value is
 * refused with its key, its rule and its value; what is odd but possible is kept and asked about (./questions.ts). What is left out
 * stays out.
 */
import { parseSwitchPair } from '../../shared/quantity/parse-switch-pair.ts';
import type { Card, SwitchCard, TankCard, Use } from './card.ts';
import {
  AIR_PRESSURE,
  ALTITUDE,
  FALSE_ALARMS,
  LONGEST_TEXT,
  SWITCH_PRESSURE,
  TANK_VOLUME,
} from './limits.ts';
import {
  choiceAt,
  firstProblem,
  lookAt,
  lookInto,
  nameAt,
  needed,
  note,
  quantityAt,
  textAt,
  valueOf,
} from './look.ts';
import type { Look, Problem } from './look.ts';
import { DESCRIBED_KEYS, readDescription, TANK_DESCRIBED_KEYS } from './read-description.ts';
import { readPumps } from './read-pumps.ts';
import { readReads } from './read-reads.ts';

const CARD_KEYS = [
  'well',
  'site',
  'timeZone',
  'altitude',
  'use',
  'control',
  'pump',
  'pumps',
  'switch',
  'tank',
  'relief',
  'falseAlarmsPerYear',
  'reads',
  ...DESCRIBED_KEYS,
] as const;

const TANK_KEYS = ['kind', 'volume', 'precharge', ...TANK_DESCRIBED_KEYS] as const;

const USES = ['house', 'stock', 'irrigation'] as const satisfies readonly Use[];

/** The card, or one line that names the key, the rule and the value. Never throws. */
export function readCard(json: unknown): { card: Card } | { problem: string } {
  const { look, card } = lookThrough(json);
  const problem = firstProblem(look, 'card');
  return problem === undefined ? { card } : { problem };
}

/** All that is wrong with a card, each with its key: for a form, which shows every reason at its field. */
export function problemsOfCard(json: unknown): readonly Problem[] {
  return lookThrough(json).look.problems;
}

/** The card counts only where nothing was noted. */
function lookThrough(json: unknown): { look: Look; card: Card } {
  const look = lookAt(json, CARD_KEYS);
  const well = needed(look, 'well', nameAt(look, 'well')) ?? '';
  const site = textAt(look, 'site', LONGEST_TEXT);
  const altitudeM = quantityAt(look, 'altitude', 'length', ALTITUDE);
  const pumpLooks = new Map<string, Look>();
  const pumps = readPumps(look, pumpLooks);
  const tankLook = lookInto(look, 'tank', TANK_KEYS);
  const tank = tankLook && readTank(tankLook);
  const described = readDescription(look, { pumps: pumpLooks, tank: tankLook });
  const reliefKpa = quantityAt(look, 'relief', 'pressure', SWITCH_PRESSURE);
  const falseAlarmsPerYear = readFalseAlarms(look);
  const card: Card = {
    well,
    ...(site !== undefined && { site }),
    timeZone: readTimeZone(look),
    altitudeM: altitudeM ?? 0,
    altitudeGiven: altitudeM !== undefined,
    uses: readUses(look),
    pumps,
    switch: readSwitch(look),
    ...(tank && { tank }),
    ...(reliefKpa !== undefined && { reliefKpa }),
    ...(falseAlarmsPerYear !== undefined && { falseAlarmsPerYear }),
    reads: readReads(look, pumps),
    ...(described && { described }),
  };
  return { look, card };
}

/** The card of a well that nobody wrote one for: a node is a well of its own name with one pump (contract, introduction). */
export function cardOfNode(node: string): Card {
  return {
    well: node,
    timeZone: 'UTC',
    altitudeM: 0,
    altitudeGiven: false,
    uses: [],
    pumps: [{ id: 'p1', control: 'pressure-switch' }],
    switch: {},
    reads: [],
  };
}

function readTimeZone(look: Look): string {
  const value = valueOf(look, 'timeZone');
  if (value === undefined) return 'UTC';
  if (typeof value === 'string' && isTimeZone(value)) return value;
  note(look, 'timeZone', 'must be a time zone of the IANA list (such as "America/Denver")');
  return 'UTC';
}

/** Offsets such as "+02:00" are left out: they know no summer time, and the local day would be wrong half of the year. */
function isTimeZone(name: string): boolean {
  if (!/^[A-Za-z]/.test(name)) return false;
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }).resolvedOptions().timeZone !== '';
  } catch {
    return false;
  }
}

function readUses(look: Look): Use[] {
  const value = valueOf(look, 'use');
  if (value === undefined) return [];
  const list: unknown[] = Array.isArray(value) ? value : [value];
  const uses = USES.filter((use) => list.includes(use));
  if (list.every((one) => USES.some((use) => use === one))) return uses;
  note(look, 'use', `must be one of ${USES.join(', ')}, or a list of them`);
  return [];
}

function readFalseAlarms(look: Look): number | undefined {
  const value = valueOf(look, 'falseAlarmsPerYear');
  if (value === undefined) return undefined;
  if (typeof value === 'number' && value >= FALSE_ALARMS.min && value <= FALSE_ALARMS.max) return value;
  note(look, 'falseAlarmsPerYear', `must be ${FALSE_ALARMS.says}`);
  return undefined;
}

function readSwitch(card: Look): SwitchCard {
  const value = valueOf(card, 'switch');
  // A switch is called by its points, and often nothing more is known of it.
  if (typeof value === 'string') return readPoints(card, 'switch');
  const look = lookInto(card, 'switch', ['points', 'cutIn', 'cutOut', 'lowCutOff']);
  if (!look) return {};
  const points = readPoints(look, 'points');
  const cutInKpa = points.cutInKpa ?? quantityAt(look, 'cutIn', 'pressure', SWITCH_PRESSURE);
  const cutOutKpa = points.cutOutKpa ?? quantityAt(look, 'cutOut', 'pressure', SWITCH_PRESSURE);
  for (const key of ['cutIn', 'cutOut'])
    if (valueOf(look, 'points') !== undefined && valueOf(look, key) !== undefined)
      note(look, key, 'must not stand beside points, which give both');
  const lowCutOffKpa = quantityAt(look, 'lowCutOff', 'pressure', SWITCH_PRESSURE);
  mustBeBelow(look, ['cutIn', cutInKpa], ['cutOut', cutOutKpa]);
  const lowest = valueOf(look, 'points') === undefined ? 'cutIn' : 'points';
  mustBeBelow(look, ['lowCutOff', lowCutOffKpa], [lowest, cutInKpa]);
  if (lowest === 'cutIn') mustBeBelow(look, ['lowCutOff', lowCutOffKpa], ['cutOut', cutOutKpa]);
  return {
    ...(cutInKpa !== undefined && { cutInKpa }),
    ...(cutOutKpa !== undefined && { cutOutKpa }),
    ...(lowCutOffKpa !== undefined && { lowCutOffKpa }),
  };
}

/** "40/60" under `key`, each point within what a switch can be set to. */
function readPoints(look: Look, key: string): SwitchCard {
  const value = valueOf(look, key);
  if (value === undefined) return {};
  const read = typeof value === 'string' ? parseSwitchPair(value) : { problem: ASKED_POINTS };
  if ('problem' in read) note(look, key, read.problem);
  else if (read.cutInKpa < SWITCH_PRESSURE.min || read.cutOutKpa > SWITCH_PRESSURE.max)
    note(look, key, `must be ${SWITCH_PRESSURE.says}`);
  else return read;
  return {};
}

const ASKED_POINTS = 'must be two pressures, cut-in first (such as "40/60 psi")';

/** A switch that opens at or under the pressure at which it closes cannot be: the pump would never rest, or never run. */
function mustBeBelow(
  look: Look,
  low: [string, number | undefined],
  high: [string, number | undefined],
): void {
  if (low[1] === undefined || high[1] === undefined || low[1] < high[1]) return;
  note(
    look,
    low[0],
    `must be below ${look.path}${high[0]}`,
    `${asText(look, low[0])}, ${asText(look, high[0])}`,
  );
}

function asText(look: Look, key: string): string {
  return String(valueOf(look, key));
}

/** A tank with a volume or an air charge is taken for a captive-air one: plain tanks are rare and their owners say so. */
function readTank(look: Look): TankCard | undefined {
  const kind = choiceAt(look, 'kind', ['captive-air', 'plain'] as const);
  const volumeL = quantityAt(look, 'volume', 'volume', TANK_VOLUME);
  const prechargeKpa = quantityAt(look, 'precharge', 'pressure', AIR_PRESSURE);
  if (kind === undefined && volumeL === undefined && prechargeKpa === undefined) return undefined;
  return {
    kind: kind ?? 'captive-air',
    ...(volumeL !== undefined && { volumeL }),
    ...(prechargeKpa !== undefined && { prechargeKpa }),
  };
}
