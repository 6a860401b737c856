/** An invented farm's alarms and people for the notice tests. */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import type { NoticeAlarm } from '../../../src/core/notify/decide-notices.ts';
import type { Recipient } from '../../../src/core/notify/recipients.ts';

export const NOW_MS = Date.parse('2026-04-02T17:20:09.000Z');

export function raised(more: Partial<AlarmEvent> = {}): AlarmEvent {
  return {
    event: 'alarm',
    well: 'north-paddock',
    pump: 'p1',
    alarm: 'short-cycling',
    state: 'raised',
    at: '2026-04-02T17:20:09.000Z',
    since: '2026-04-02T17:02:00.000Z',
    priority: 'soon',
    why: '14 starts in 18 min; normal is 1',
    evidence: { starts: 14, inS: 1080, normal: 1 },
    causes: [
      { cause: 'tank-air-lost', weight: 0.8 },
      { cause: 'leak', weight: 0.2 },
    ],
    ...more,
  };
}

export function alarm(event: AlarmEvent, more: Partial<NoticeAlarm> = {}): NoticeAlarm {
  return { id: 'north-paddock/p1/short-cycling/1775149320000', event, ...more };
}

export function person(name: string, more: Partial<Recipient> = {}): Recipient {
  return { name, priorities: ['now', 'soon'], channels: [`mail:${name}@farm.example`], ...more };
}

/** A whole site went silent: no well, no pump. */
export function siteSilent(): AlarmEvent {
  const { well: _well, pump: _pump, ...rest } = raised({ site: 'home-farm', alarm: 'site-silent' });
  return rest;
}
