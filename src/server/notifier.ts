/**
 * Who is told of an alarm's change, by the settings, in words of the place: times of day are those of the well's own time zone, as its
 * card says; of a whole site, those of any well there.
 */
import { readAct } from '../core/domain/read-act.ts';
import type { Card } from '../core/domain/card.ts';
import type { Settings } from '../config/settings.ts';
import { decideNotices } from '../core/notify/decide-notices.ts';
import type { NoticeRow } from '../core/notify/notice-row.ts';
import type { Store } from '../store/store.ts';
import type { Notifier } from './live/state.ts';

interface AlarmSubject {
  well?: string;
  site?: string;
}

/** `cards`: the newest card of each well; undefined while the live loop is still being made from the store, which then knows them. */
export function newNotifier(
  settings: Pick<Settings, 'notices' | 'units'>,
  store: Pick<Store, 'acts'>,
  cards: () => ReadonlyMap<string, Card> | undefined,
): Notifier {
  return (change, nowMs) =>
    settings.notices.length === 0
      ? []
      : decideNotices(change, {
          recipients: settings.notices,
          nowMs,
          units: settings.units,
          timeZone: timeZoneOf(change.event, cards() ?? storedCards(store)),
        })
          .map((decision) => ('row' in decision ? decision.row : undefined))
          .filter((row): row is NoticeRow => row !== undefined);
}

function timeZoneOf({ well, site }: AlarmSubject, cards: ReadonlyMap<string, Card>): string {
  const own = well === undefined ? undefined : cards.get(well);
  const card =
    own ?? (site === undefined ? undefined : [...cards.values()].find((other) => other.site === site));
  return card?.timeZone ?? 'UTC';
}

function storedCards(store: Pick<Store, 'acts'>): Map<string, Card> {
  const cards = new Map<string, Card>();
  for (const { kind, body } of store.acts({ fromMs: 0 })) {
    if (kind !== 'card-changed') continue;
    const read = readAct(body);
    if ('act' in read && read.act.kind === 'card-changed') cards.set(read.act.card.well, read.act.card);
  }
  return cards;
}
