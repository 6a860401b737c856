/** A stored notice holds reasons and figures; its words are made when it is sent. */
import { describe, expect, it } from 'vitest';
import { decideNotices } from '../../../src/core/notify/decide-notices.ts';
import type { NoticeRow } from '../../../src/core/notify/notice-row.ts';
import { noticeEvent, noticeText } from '../../../src/core/notify/notice-text.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { alarm, NOW_MS, person, raised } from './support.ts';

const levelLow = raised({
  alarm: 'level-low',
  why: 'as it was said when it was raised',
  reason: 'level-near-intake',
  figures: { levelM: 3 },
});

function rowOf(event = levelLow, units: UnitSystem = 'us'): NoticeRow {
  const [decision] = decideNotices(
    { after: alarm(event), event },
    { recipients: [person('anna')], nowMs: NOW_MS, units, timeZone: 'America/Denver' },
  );
  if (decision === undefined || !('row' in decision)) throw new Error('no row was made');
  return decision.row;
}

describe('a notice', () => {
  it('is stored with reason and figures, and without a sentence', () => {
    const { body } = rowOf();
    expect(body.event).toMatchObject({ reason: 'level-near-intake', figures: { levelM: 3 } });
    expect(body.event).not.toHaveProperty('why');
    expect(body).not.toHaveProperty('text');
  });

  it('is written in the units of whoever is told', () => {
    expect(noticeText(rowOf(levelLow, 'us')).text).toContain('is only 9.8 ft above');
    expect(noticeText(rowOf(levelLow, 'metric')).text).toContain('is only 3 m above');
  });

  it('has the same words at each try', () => {
    const row = rowOf();
    expect(noticeText({ ...row, tries: 3, dueMs: NOW_MS + 3_600_000 })).toEqual(noticeText(row));
  });

  it('gives machines the sentence too', () => {
    expect(noticeEvent(rowOf()).why).toContain('9.8 ft (3 m)');
  });

  it('keeps the words that an earlier version stored, and its sentence where it has no reason', () => {
    const row = rowOf(raised());
    const old = { ...row, body: { ...row.body, subject: 'north-paddock', text: 'It leaks.' } };
    expect(noticeText(old)).toEqual({ subject: 'north-paddock', text: 'It leaks.' });
    expect(noticeEvent(row).why).toBe(raised().why);
  });
});
