/** What the channels of a node are called. */
const CHANNEL_NAMES: Readonly<Record<string, string>> = {
  current: 'Current',
  'current-2': 'Current, line 2',
  'current-3': 'Current, line 3',
  pressure: 'Pressure',
  voltage: 'Voltage',
  'voltage-2': 'Voltage, line 2',
  'voltage-3': 'Voltage, line 3',
  flow: 'Flow',
  level: 'Water above the pump',
  store: 'Level in the storage tank',
  contact: 'Call for water',
  temperature: 'Temperature',
  power: 'Power',
  'power-factor': 'Power factor',
};

/** "Current, pump 2" for `p2/current`. A channel that is unknown here keeps its own name. */
export function channelName(channel: string): string {
  const cut = channel.indexOf('/');
  const name = CHANNEL_NAMES[channel.slice(cut + 1)];
  if (name === undefined) return channel;
  return cut < 0 ? name : `${name}, pump ${channel.slice(1, cut)}`;
}
