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
  /** In plain words, for a label. */
  label: string;
}

const UNCHANGED = 1;

const UNITS_BY_CHANNEL: Record<string, ChannelUnit> = {
  current: { unit: 'A', factor: UNCHANGED, dimension: 'current', label: 'Current' },
  'current-2': { unit: 'A', factor: UNCHANGED, dimension: 'current', label: 'Current, line 2' },
  'current-3': { unit: 'A', factor: UNCHANGED, dimension: 'current', label: 'Current, line 3' },
  pressure: { unit: 'kPa', factor: 1e-3, dimension: 'pressure', label: 'Pressure' },
  voltage: { unit: 'V', factor: UNCHANGED, dimension: 'voltage', label: 'Voltage' },
  'voltage-2': { unit: 'V', factor: UNCHANGED, dimension: 'voltage', label: 'Voltage, line 2' },
  'voltage-3': { unit: 'V', factor: UNCHANGED, dimension: 'voltage', label: 'Voltage, line 3' },
  flow: { unit: 'L/s', factor: 1e3, dimension: 'flow', label: 'Flow' },
  level: { unit: 'm', factor: UNCHANGED, dimension: 'length', label: 'Water over the pump' },
  store: { unit: 'm', factor: UNCHANGED, dimension: 'length', label: 'Depth in the store' },
  contact: { unit: '', factor: UNCHANGED, label: 'Call for water' },
  temperature: { unit: 'Cel', factor: UNCHANGED, dimension: 'temperature', label: 'Temperature' },
  power: { unit: 'W', factor: UNCHANGED, label: 'Power' },
  'power-factor': { unit: '', factor: UNCHANGED, label: 'Power factor' },
};

/**
 * The unit of a channel by its name, pump prefix or not; undefined where there is no such channel.
 */
export function channelUnit(channel: string): ChannelUnit | undefined {
  const cut = channel.indexOf('/');
  const base = UNITS_BY_CHANNEL[channel.slice(cut + 1)];
  if (!base || cut < 0) return base;
  return { ...base, label: `${base.label}, pump ${channel.slice(1, cut)}` };
}
