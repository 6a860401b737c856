/**
 * How long late data may change what is reported (contract, section 4), and what follows from that.
 */
import { DAY_MS } from '../../../shared/units/duration.ts';

/** Readings later than this are kept, counted, and change nothing that was reported. */
export const SETTLE_MS = 7 * DAY_MS;
/** Ended alarms are remembered for the settling time and a day, so that late data finds them. */
export const KNOWN_ALARM_WINDOW_MS = SETTLE_MS + DAY_MS;
