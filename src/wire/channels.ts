/**
 * The channels of the contract as packs name them. The table itself stands in src/card/channels.ts, because a card names channels
 * too (`reads`) and the card comes before the wire.
 */
export { BASE_CHANNELS, CHANNEL_UNITS, MAX_PUMPS, channelCode, channelName } from '../card/channels.ts';
export type { BaseChannel } from '../card/channels.ts';
