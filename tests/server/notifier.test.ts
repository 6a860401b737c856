import { noticeText } from '../../src/core/notify/notice-text.ts';
import { describe, expect, it } from 'vitest';
import type { Card } from '../../src/core/domain/card.ts';
import type { RecipientSettings } from '../../src/config/settings.ts';
import { newNotifier } from '../../src/server/notifier.ts';
import { alarm, NOW_MS, raised, siteSilent } from '../core/notify/support.ts';
import { houseCard } from '../core/alarms/scene-kit.ts';

const person = (
  name: string,
  priorities: RecipientSettings['priorities'] = ['now', 'soon'],
): RecipientSettings => ({ name, priorities, mail: { to: [`${name}@farm.example`] } });
const settings = { notices: [person('anna')], units: 'us' as const };
const change = (event: ReturnType<typeof raised>) => ({ after: alarm(event), event });
const cards = (...all: Card[]) => new Map(all.map((card) => [card.well, card]));
const inBoise = houseCard({ timeZone: 'America/Boise', site: 'home-farm' });

/**
 * The alarm began at 17:02 UTC on 2 April: 11:02 in Boise, where summer time is kept (UTC-6, tz
 * database).
 */
const BOISE = /11:02/;
const UTC = /(17:02|5:02)/;

const newDescription = (): NonNullable<Card['description']> => ({
  treatment: [],
  pumps: {},
  hole: { checkValves: [] },
  tank: {},
  electrical: { wires: {}, photos: [] },
  where: {},
});

describe('newNotifier', () => {
  it('tells each recipient whom the settings name, in the time of the well’s card', () => {
    const reported = newNotifier(settings)(change(raised()), { nowMs: NOW_MS, cards: cards(inBoise) });
    expect(reported.map((row) => row.to)).toEqual(['anna']);
    expect(noticeText(reported[0]!).text).toMatch(BOISE);
  });

  it('tells nobody where the settings name nobody', () => {
    expect(
      newNotifier({ ...settings, notices: [] })(change(raised()), { nowMs: NOW_MS, cards: cards(inBoise) }),
    ).toEqual([]);
  });

  it('leaves out who does not hear such alarms', () => {
    const notices = [person('anna', ['now']), person('ben')];
    const reported = newNotifier({ ...settings, notices })(change(raised()), {
      nowMs: NOW_MS,
      cards: cards(inBoise),
    });
    expect(reported.map((row) => row.to)).toEqual(['ben']);
  });

  it('takes the time of any well of the site where a whole site is meant', () => {
    const reported = newNotifier(settings)(change(siteSilent()), { nowMs: NOW_MS, cards: cards(inBoise) });
    expect(noticeText(reported[0]!).text).toMatch(BOISE);
  });

  it('says whom to call and where to switch off, as the card has it', () => {
    const description = {
      ...newDescription(),
      firm: 'Bluestem Well Service, 555-0142',
      electrical: { wires: {}, photos: [], breaker: '14/16' },
    };
    const reported = newNotifier(settings)(change(raised({ alarm: 'dry-run' })), {
      nowMs: NOW_MS,
      cards: cards({ ...inBoise, description }),
    });
    expect(noticeText(reported[0]!).text).toMatch(
      /^.*\nCall: Bluestem Well Service, 555-0142\.\nSwitch off: breaker 14\/16\./,
    );
  });

  it('says UTC where no card is known', () => {
    const reported = newNotifier(settings)(change(raised()), { nowMs: NOW_MS, cards: cards() });
    expect(noticeText(reported[0]!).text).toMatch(UTC);
  });
});
