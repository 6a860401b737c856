/**
 * The channels of the contract as packs name them. The table itself stands in
 * src/core/domain/channels.ts, because a card names channels too (`reads`) and the card comes
 * before the wire.
 */
export { BASE_CHANNELS, CHANNEL_UNITS, MAX_PUMPS, channelCode, channelName } from '../domain/channels.ts';
export type { BaseChannel } from '../domain/channels.ts';
