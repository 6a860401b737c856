/**
 * Who is told of an alarm's change, by the settings, in words of the place: times of day are those
 * of the well's own time zone, as its card says; of a whole site, those of any well there.
 */
import type { Card } from '../core/domain/card.ts';
import type { CardNames } from '../../shared/text/en/card-names.ts';
import type { Settings } from '../config/settings.ts';
import { channelsOf } from '../channels/channels.ts';
import { decideNotices } from '../core/notify/decide-notices.ts';
import { namesOnCard } from '../core/notify/names-on-card.ts';
import type { NoticeRow } from '../core/notify/notice-row.ts';
import type { Notifier } from './live/state.ts';

interface AlarmSubject {
  well?: string;
  site?: string;
}

export function newNotifier(settings: Pick<Settings, 'notices' | 'units'>): Notifier {
  const recipients = settings.notices.map((recipient) => ({
    ...recipient,
    channels: channelsOf(recipient).map(({ id }) => id),
  }));
  return (change, { nowMs, cards }) =>
    recipients.length === 0
      ? []
      : decideNotices(change, {
          recipients,
          nowMs,
          units: settings.units,
          timeZone: timeZoneOf(change.event, cards),
          names: namesOf(change.event, cards),
        })
          .map((decision) => ('row' in decision ? decision.row : undefined))
          .filter((row): row is NoticeRow => row !== undefined);
}

function namesOf({ well }: AlarmSubject, cards: ReadonlyMap<string, Card>): CardNames {
  const card = well === undefined ? undefined : cards.get(well);
  return card === undefined ? {} : namesOnCard(card);
}

function timeZoneOf({ well, site }: AlarmSubject, cards: ReadonlyMap<string, Card>): string {
  const own = well === undefined ? undefined : cards.get(well);
  const card =
    own ?? (site === undefined ? undefined : [...cards.values()].find((other) => other.site === site));
  return card?.timeZone ?? 'UTC';
}
