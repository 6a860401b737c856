/**
 * The channels of the contract (section 2) and a small number for each, so that a stretch of
 * readings can carry them in a byte: pump index x 16 + the base channel's place. `current` of pump
 * 2 is 16, the whole well's pressure is 3.
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
};

/** Pumps on one node or well: 15 x 16 codes fit a byte. */
export const MAX_PUMPS = 15;

const BASE_INDEX = new Map<string, number>(BASE_CHANNELS.map((name, at) => [name, at]));

/**
 * The code of a channel name, or undefined where the contract has no such channel. `p1/` is written
 * without prefix.
 */
export function channelCode(name: string): number | undefined {
  const slash = name.indexOf('/');
  if (slash < 0) return BASE_INDEX.get(name);
  const pump = /^p([2-9]|1[0-5])$/.exec(name.slice(0, slash));
  const base = BASE_INDEX.get(name.slice(slash + 1));
  return pump && base !== undefined ? (Number(pump[1]) - 1) * 16 + base : undefined;
}

export function channelName(code: number): string {
  const base = BASE_CHANNELS[code & 15];
  if (base === undefined) throw new RangeError(`Cannot name channel: no channel has code ${code}`);
  const pump = code >> 4;
  return pump === 0 ? base : `p${pump + 1}/${base}`;
}

/** A channel without its pump prefix; undefined where the contract has no such channel. */
export function baseChannel(name: string): BaseChannel | undefined {
  const code = channelCode(name);
  return code === undefined ? undefined : BASE_CHANNELS[code & 15];
}

/**
 * SenML unit of a channel by its whole name, pump prefix and all; undefined where the contract has
 * no such channel.
 */
export function channelUnit(name: string): string | undefined {
  const base = baseChannel(name);
  return base && CHANNEL_UNITS[base];
}
