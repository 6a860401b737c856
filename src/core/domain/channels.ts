/**
 * The channels of the contract (section 2) and a small number for each, so that a stretch of
 * readings can carry them in a byte: pump index x 17 + the base channel's place. `current` of pump
 * 2 is 17, the whole well's pressure is 3.
 */
export const BASE_CHANNELS = [
  'current',
  'current-2',
  'current-3',
  'pressure',
  'voltage',
  'voltage-2',
  'voltage-3',
  'flow',
  'level',
  'store',
  'contact',
  'temperature',
  'power',
  'power-factor',
] as const;
export type BaseChannel = (typeof BASE_CHANNELS)[number];

/** SenML unit of each channel; `contact` is a boolean without unit. */
export const CHANNEL_UNITS: Record<BaseChannel, string> = {
  current: 'A',
  'current-2': 'A',
  'current-3': 'A',
  pressure: 'Pa',
  voltage: 'V',
  'voltage-2': 'V',
  'voltage-3': 'V',
  flow: 'm3/s',
  level: 'm',
  store: 'm',
  contact: '',
  temperature: 'Cel',
  power: 'W',
  'power-factor': '/',
};

/** Pumps on one node or well: 15 x 17 codes fit a byte. */
export const MAX_PUMPS = 15;

/** Places a pump: the base channels, and after them the currents of its starts. */
const PLACES = 17;
const PLACE_OF = Object.fromEntries(BASE_CHANNELS.map((base, place) => [base, place])) as Record<
  BaseChannel,
  number
>;
const FIRST_START_PLACE = BASE_CHANNELS.length;
const LINES = 3;

/** The code of a base channel of a pump, counted from 0; of the whole well where it has but one. */
export function codeOf(base: BaseChannel, pump = 0): number {
  return pump * PLACES + PLACE_OF[base];
}

/** The place of its base channel in BASE_CHANNELS; a start's current has one after them. */
export function placeOf(code: number): number {
  return code % PLACES;
}

/** Which pump, counted from 0. */
export function pumpOf(code: number): number {
  return Math.floor(code / PLACES);
}

export function baseOf(code: number): BaseChannel | undefined {
  return BASE_CHANNELS[placeOf(code)];
}

/** One of the three currents. */
export function isCurrent(code: number): boolean {
  return placeOf(code) < LINES;
}

/** Which line a current or a voltage is of, counted from 0. */
export function lineOf(code: number): number {
  const place = placeOf(code);
  return place < LINES ? place : place - PLACE_OF.voltage;
}

/**
 * The code for the readings of a current in a `start` pack: they serve the start alone, and belong
 * to no channel of the well.
 */
export function startCodeOf(code: number): number {
  return code + FIRST_START_PLACE;
}

export function isStartCode(code: number): boolean {
  return placeOf(code) >= FIRST_START_PLACE;
}

/**
 * The code of a channel name, or undefined where the contract has no such channel. `p1/` is written
 * without prefix.
 */
export function channelCode(name: string): number | undefined {
  const slash = name.indexOf('/');
  if (slash < 0) return baseCode(name, 0);
  const pump = /^p([2-9]|1[0-5])$/.exec(name.slice(0, slash));
  return pump ? baseCode(name.slice(slash + 1), Number(pump[1]) - 1) : undefined;
}

function baseCode(name: string, pump: number): number | undefined {
  return isBaseChannel(name) ? codeOf(name, pump) : undefined;
}

function isBaseChannel(name: string): name is BaseChannel {
  return Object.hasOwn(PLACE_OF, name);
}

export function channelName(code: number): string {
  const base = baseOf(code);
  if (base === undefined) throw new RangeError(`Cannot name channel: no channel has code ${code}`);
  const pump = pumpOf(code);
  return pump === 0 ? base : `p${pump + 1}/${base}`;
}

/** A channel without its pump prefix; undefined where the contract has no such channel. */
export function baseChannel(name: string): BaseChannel | undefined {
  const code = channelCode(name);
  return code === undefined ? undefined : baseOf(code);
}

/**
 * SenML unit of a channel by its whole name, pump prefix and all; undefined where the contract has
 * no such channel.
 */
export function channelUnit(name: string): string | undefined {
  const base = baseChannel(name);
  return base && CHANNEL_UNITS[base];
}
