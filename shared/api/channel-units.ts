/**
 * In which unit the API and the pages give a channel: kPa and L/s where the wire has Pa and m3/s,
 * because everything people read is reckoned from those; every other channel as it is on the wire.
 */
import type { Dimension } from '../quantity/units.ts';

export interface ChannelUnit {
  unit: string;
  /** What the wire's number is multiplied by. */
  factor: number;
  dimension?: Dimension;
}

const UNCHANGED = 1;

const UNITS_BY_CHANNEL: Record<string, ChannelUnit> = {
  current: { unit: 'A', factor: UNCHANGED, dimension: 'current' },
  'current-2': { unit: 'A', factor: UNCHANGED, dimension: 'current' },
  'current-3': { unit: 'A', factor: UNCHANGED, dimension: 'current' },
  pressure: { unit: 'kPa', factor: 1e-3, dimension: 'pressure' },
  voltage: { unit: 'V', factor: UNCHANGED, dimension: 'voltage' },
  'voltage-2': { unit: 'V', factor: UNCHANGED, dimension: 'voltage' },
  'voltage-3': { unit: 'V', factor: UNCHANGED, dimension: 'voltage' },
  flow: { unit: 'L/s', factor: 1e3, dimension: 'flow' },
  level: { unit: 'm', factor: UNCHANGED, dimension: 'length' },
  store: { unit: 'm', factor: UNCHANGED, dimension: 'length' },
  contact: { unit: '', factor: UNCHANGED },
  temperature: { unit: 'Cel', factor: UNCHANGED, dimension: 'temperature' },
  power: { unit: 'W', factor: UNCHANGED },
  'power-factor': { unit: '', factor: UNCHANGED },
};

/**
 * The unit of a channel by its name, pump prefix or not; undefined where there is no such channel.
 */
export function channelUnit(channel: string): ChannelUnit | undefined {
  return UNITS_BY_CHANNEL[channel.slice(channel.indexOf('/') + 1)];
}
