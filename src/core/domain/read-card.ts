/**
 * A card as people write it (contract, section 5) -> a checked card in SI. An unknown key, a wrong unit or an impossible value is
 * refused with its key, its rule and its value; what is odd but possible is kept and asked about (./questions.ts). What is left out
 * stays out.
 */
import { parseSwitchPair } from '../../../shared/quantity/parse-switch-pair.ts';
import type { Card, SwitchCard, TankCard, Use } from './card.ts';
import {
  AIR_PRESSURE,
  ALTITUDE,
  FALSE_ALARMS,
  MAX_TEXT_CHARACTERS,
  SWITCH_PRESSURE,
  TANK_VOLUME,
} from './limits.ts';
import {
  choiceAt,
  formatFirstIssue,
  rootContext,
  childContext,
  nameAt,
  required,
  addIssue,
  quantityAt,
  textAt,
  fieldValue,
} from './parse-context.ts';
import type { ParseContext, ParseIssue } from './parse-context.ts';
import { DESCRIPTION_KEYS, readDescription, TANK_DESCRIPTION_KEYS } from './read-description.ts';
import { readPumps } from './read-pumps.ts';
import { readSources } from './read-sources.ts';

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
  ...DESCRIPTION_KEYS,
] as const;

const TANK_KEYS = ['kind', 'volume', 'precharge', ...TANK_DESCRIPTION_KEYS] as const;

const USES = ['house', 'stock', 'irrigation'] as const satisfies readonly Use[];

/** The card, or one line that names the key, the rule and the value. Never throws. */
export function readCard(json: unknown): { card: Card } | { problem: string } {
  const { context, card } = parseCard(json);
  const problem = formatFirstIssue(context, 'card');
  return problem === undefined ? { card } : { problem };
}

/** All that is wrong with a card, each with its key: for a form, which shows every reason at its field. */
export function cardIssues(json: unknown): readonly ParseIssue[] {
  return parseCard(json).context.issues;
}

/** The card counts only where nothing was noted. */
function parseCard(json: unknown): { context: ParseContext; card: Card } {
  const context = rootContext(json, CARD_KEYS);
  const well = required(context, 'well', nameAt(context, 'well')) ?? '';
  const site = textAt(context, 'site', MAX_TEXT_CHARACTERS);
  const altitudeM = quantityAt(context, 'altitude', 'length', ALTITUDE);
  const pumpContexts = new Map<string, ParseContext>();
  const pumps = readPumps(context, pumpContexts);
  const tankContext = childContext(context, 'tank', TANK_KEYS);
  const tank = tankContext && readTank(tankContext);
  const described = readDescription(context, { pumps: pumpContexts, tank: tankContext });
  const reliefKpa = quantityAt(context, 'relief', 'pressure', SWITCH_PRESSURE);
  const falseAlarmsPerYear = readFalseAlarms(context);
  const card: Card = {
    well,
    ...(site !== undefined && { site }),
    timeZone: readTimeZone(context),
    altitudeM: altitudeM ?? 0,
    altitudeKnown: altitudeM !== undefined,
    uses: readUses(context),
    pumps,
    switch: readSwitch(context),
    ...(tank && { tank }),
    ...(reliefKpa !== undefined && { reliefKpa }),
    ...(falseAlarmsPerYear !== undefined && { falseAlarmsPerYear }),
    reads: readSources(context, pumps),
    ...(described && { description: described }),
  };
  return { context, card };
}

/** The card of a well that nobody wrote one for: a node is a well of its own name with one pump (contract, introduction). */
export function defaultCardForNode(node: string): Card {
  return {
    well: node,
    timeZone: 'UTC',
    altitudeM: 0,
    altitudeKnown: false,
    uses: [],
    pumps: [{ id: 'p1', control: 'pressure-switch' }],
    switch: {},
    reads: [],
  };
}

function readTimeZone(context: ParseContext): string {
  const value = fieldValue(context, 'timeZone');
  if (value === undefined) return 'UTC';
  if (typeof value === 'string' && isTimeZone(value)) return value;
  addIssue(context, 'timeZone', 'must be a time zone of the IANA list (such as "America/Denver")');
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

function readUses(context: ParseContext): Use[] {
  const value = fieldValue(context, 'use');
  if (value === undefined) return [];
  const list: unknown[] = Array.isArray(value) ? value : [value];
  const uses = USES.filter((use) => list.includes(use));
  if (list.every((one) => USES.some((use) => use === one))) return uses;
  addIssue(context, 'use', `must be one of ${USES.join(', ')}, or a list of them`);
  return [];
}

function readFalseAlarms(context: ParseContext): number | undefined {
  const value = fieldValue(context, 'falseAlarmsPerYear');
  if (value === undefined) return undefined;
  if (typeof value === 'number' && value >= FALSE_ALARMS.min && value <= FALSE_ALARMS.max) return value;
  addIssue(context, 'falseAlarmsPerYear', `must be ${FALSE_ALARMS.text}`);
  return undefined;
}

function readSwitch(card: ParseContext): SwitchCard {
  const value = fieldValue(card, 'switch');
  // A switch is called by its points, and often nothing more is known of it.
  if (typeof value === 'string') return readPoints(card, 'switch');
  const context = childContext(card, 'switch', ['points', 'cutIn', 'cutOut', 'lowCutOff']);
  if (!context) return {};
  const points = readPoints(context, 'points');
  const cutInKpa = points.cutInKpa ?? quantityAt(context, 'cutIn', 'pressure', SWITCH_PRESSURE);
  const cutOutKpa = points.cutOutKpa ?? quantityAt(context, 'cutOut', 'pressure', SWITCH_PRESSURE);
  for (const key of ['cutIn', 'cutOut'])
    if (fieldValue(context, 'points') !== undefined && fieldValue(context, key) !== undefined)
      addIssue(context, key, 'must not stand beside points, which give both');
  const lowCutOffKpa = quantityAt(context, 'lowCutOff', 'pressure', SWITCH_PRESSURE);
  requireBelow(context, ['cutIn', cutInKpa], ['cutOut', cutOutKpa]);
  const lowest = fieldValue(context, 'points') === undefined ? 'cutIn' : 'points';
  requireBelow(context, ['lowCutOff', lowCutOffKpa], [lowest, cutInKpa]);
  if (lowest === 'cutIn') requireBelow(context, ['lowCutOff', lowCutOffKpa], ['cutOut', cutOutKpa]);
  return {
    ...(cutInKpa !== undefined && { cutInKpa }),
    ...(cutOutKpa !== undefined && { cutOutKpa }),
    ...(lowCutOffKpa !== undefined && { lowCutOffKpa }),
  };
}

/** "40/60" under `key`, each point within what a switch can be set to. */
function readPoints(context: ParseContext, key: string): SwitchCard {
  const value = fieldValue(context, key);
  if (value === undefined) return {};
  const read = typeof value === 'string' ? parseSwitchPair(value) : { problem: POINTS_RULE };
  if ('problem' in read) addIssue(context, key, read.problem);
  else if (read.cutInKpa < SWITCH_PRESSURE.min || read.cutOutKpa > SWITCH_PRESSURE.max)
    addIssue(context, key, `must be ${SWITCH_PRESSURE.text}`);
  else return read;
  return {};
}

const POINTS_RULE = 'must be two pressures, cut-in first (such as "40/60 psi")';

/** A switch that opens at or under the pressure at which it closes cannot be: the pump would never rest, or never run. */
function requireBelow(
  context: ParseContext,
  low: [string, number | undefined],
  high: [string, number | undefined],
): void {
  if (low[1] === undefined || high[1] === undefined || low[1] < high[1]) return;
  addIssue(
    context,
    low[0],
    `must be below ${context.path}${high[0]}`,
    `${fieldText(context, low[0])}, ${fieldText(context, high[0])}`,
  );
}

function fieldText(context: ParseContext, key: string): string {
  return String(fieldValue(context, key));
}

/** A tank with a volume or an air charge is taken for a captive-air one: plain tanks are rare and their owners say so. */
function readTank(context: ParseContext): TankCard | undefined {
  const kind = choiceAt(context, 'kind', ['captive-air', 'plain'] as const);
  const volumeL = quantityAt(context, 'volume', 'volume', TANK_VOLUME);
  const prechargeKpa = quantityAt(context, 'precharge', 'pressure', AIR_PRESSURE);
  if (kind === undefined && volumeL === undefined && prechargeKpa === undefined) return undefined;
  return {
    kind: kind ?? 'captive-air',
    ...(volumeL !== undefined && { volumeL }),
    ...(prechargeKpa !== undefined && { prechargeKpa }),
  };
}
