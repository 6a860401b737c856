/** A notice that says it is a test: for trying a recipient's ways before they matter. */
import type { NoticeRow } from './notice-row.ts';

/**
 * Made anew at each test (the time is in its id), so that no receiver takes it for one it has seen.
 */
export function testNotice(to: string, channel: string, nowMs: number): NoticeRow {
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
      subject: 'Stillwell test: no alarm',
      text: `This is a test. No well is in trouble.\n\nIt shows that ${to} can be told this way. Alarms would look like this, with the well's name and what to do.\n`,
      event: {
        event: 'alarm',
        well: 'test',
        alarm: 'not-watched',
        state: 'raised',
        at,
        since: at,
        priority: 'note',
        why: 'this is a test',
        evidence: {},
        causes: [],
      },
      channel,
      reason: 'somebody asked for a test',
    },
  };
}
