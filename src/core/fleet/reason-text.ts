/** The sentences of what the fleet refuses and passes over. */
import { fleetReasons } from '../../../shared/text/en/refusals/fleet-reasons.ts';
import { localized } from '../../../shared/text/localized.ts';
import { sentenceOf, type ReasonOf } from '../../../shared/text/reason-of.ts';

const texts = localized({ en: fleetReasons });

export type FleetReason = ReasonOf<typeof fleetReasons>;

export function fleetReasonText(reason: FleetReason): string {
  return sentenceOf(texts(), reason);
}
