import { expect, test } from 'vitest';
import { siteAlarmEvent } from '../../../src/core/fleet/site-event.ts';

const at = Date.UTC(2026, 4, 4, 12);

test('siteLine: raised names the site and no well, and says how many of how many', () => {
  const line = siteAlarmEvent({
    is: 'raised',
    site: 'home-farm',
    atMs: at,
    sinceMs: at - 600_000,
    nodes: ['barn', 'shed'],
    nodeCount: 3,
    priority: 'now',
  });
  expect(line).toMatchObject({
    event: 'alarm',
    site: 'home-farm',
    alarm: 'site-silent',
    state: 'raised',
    at: '2026-05-04T12:00:00.000Z',
    since: '2026-05-04T11:50:00.000Z',
    priority: 'now',
    why: expect.stringContaining('2 of the 3 nodes'),
    evidence: { silent: 2, of: 3 },
  });
  expect('well' in line).toBe(false);
});

test('siteLine: cleared says when, and no more', () => {
  expect(siteAlarmEvent({ is: 'cleared', site: 'home-farm', atMs: at })).toEqual({
    event: 'alarm',
    site: 'home-farm',
    alarm: 'site-silent',
    state: 'cleared',
    at: '2026-05-04T12:00:00.000Z',
  });
});
