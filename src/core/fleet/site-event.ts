/**
 * The line that says that a whole site fell silent, or is back (contract, section 6): it names the
 * site, and no well.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import { formatTime } from '../well/emit.ts';
import type { SiteChange } from '../readings/site-silence.ts';
import { siteSilentEvaluation } from '../alarms/sensing/site-silent.ts';
import { reasonFields } from '../alarms/lifecycle/alarm-event.ts';

export function siteAlarmEvent(change: SiteChange): AlarmEvent {
  const head = { event: 'alarm', site: change.site, alarm: 'site-silent' } as const;
  const at = formatTime(change.atMs);
  if (change.is === 'cleared') return { ...head, state: 'cleared', at };
  const { sinceMs, nodes, nodeCount, priority } = change;
  const found = siteSilentEvaluation({ sinceMs, nodes, nodeCount, priority });
  const { evidence, causes } = found;
  return {
    ...head,
    state: 'raised',
    at,
    since: formatTime(sinceMs),
    priority,
    ...reasonFields(found),
    evidence,
    causes,
  };
}
