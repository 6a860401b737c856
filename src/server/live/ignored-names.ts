/**
 * The store keeps what was said last of ignored names as a sentence; the fleet holds its reason.
 */
import type { IgnoredNames } from '../../core/fleet/fleet.ts';
import { fleetReasonText } from '../../core/fleet/reason-text.ts';
import type { NodeRow } from '../../store/store.ts';

type StoredIgnored = NonNullable<NodeRow['ignored']>;

export function storedIgnored({ names, why, lastMs }: IgnoredNames): StoredIgnored {
  return { names, last: fleetReasonText(why), lastMs };
}

export function loadedIgnored({ names, last, lastMs }: StoredIgnored): IgnoredNames {
  return { names, why: { reason: 'as-written', figures: { text: last } }, lastMs };
}
