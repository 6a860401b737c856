/** A notice that says it is a test: for trying a recipient's ways before they matter. */
import type { NoticeRow } from './notice-row.ts';
import { texts } from './texts.ts';

/**
 * Made anew at each test (the time is in its id), so that no receiver takes it for one it has seen.
 */
export function testNotice(to: string, channel: string, nowMs: number): NoticeRow {
  const { test, decisions } = texts();
  const at = new Date(nowMs).toISOString();
  return {
    id: `test/${nowMs}/${to}/${channel}`,
    alarmId: `test/${nowMs}`,
    to,
    what: 'test',
    dueMs: nowMs,
    createdMs: nowMs,
    tries: 0,
    state: 'due',
    body: {
      subject: test.subject,
      text: test.text(to),
      event: {
        event: 'alarm',
        well: 'test',
        alarm: 'not-watched',
        state: 'raised',
        at,
        since: at,
        priority: 'note',
        why: test.why,
        evidence: {},
        causes: [],
      },
      channel,
      reason: decisions.test,
    },
  };
}
