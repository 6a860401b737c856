/**
 * How soon a person must act, in words. The wire has three priorities; within `now` there are two
 * levels, because a motor that runs without water is ruined in minutes, and a trough that runs low
 * is not. The level follows from the alarm and its form alone.
 */
import type { Evidence } from '../../../api/events.ts';
import { CATALOGUE } from '../../../alarms/catalogue.ts';
import { formOf } from './forms.ts';
import type { AlarmForm, AlarmKind, Priority } from './kinds.ts';

type NowLevel = 'minutes' | 'today';
export const URGENCIES = ['minutes', 'today', 'soon', 'note'] as const satisfies readonly (
  NowLevel | Priority
)[];
/** Most urgent first. */
export type Urgency = (typeof URGENCIES)[number];

export interface UrgencyWords {
  /** Beside the mark on a page. */
  mark: string;
  /** As it stands in the subject of a notice. */
  instruction: string;
  means: string;
}

export const URGENCY_WORDS: Record<Urgency, UrgencyWords> = {
  minutes: {
    mark: 'Act now',
    instruction: 'act now: minutes matter',
    means: 'Act now, at any hour. Within minutes a pump can be ruined or somebody hurt.',
  },
  today: {
    mark: 'Act today',
    instruction: 'act today',
    means: 'Act today. Do not leave it overnight.',
  },
  soon: { mark: 'This week', instruction: 'act this week', means: 'Act this week.' },
  note: { mark: 'Worth a look', instruction: 'worth a look', means: 'Nothing to do in a hurry.' },
};

/**
 * The level of an alarm where its priority is `now`. Those that are never `now` have one too: a
 * watch may come to raise them.
 */
export function nowLevel(alarm: AlarmKind): NowLevel {
  return CATALOGUE[alarm].minutesMatter ? 'minutes' : 'today';
}

/**
 * A form that is more urgent than its alarm; undefined where it is less. A pump held past its
 * cut-out moves no water and heats what stands in it. A motor that draws far more than its
 * nameplate allows heats with each minute, and its overload should have stopped it; so does one
 * that runs on two phases, or on a supply that is a fifth off.
 */
export const FORM_LEVELS: Record<AlarmForm, NowLevel | undefined> = {
  'past-cut-out': 'minutes',
  'over-plate': 'minutes',
  'on-two-phases': 'minutes',
  'voltage-far-off': 'minutes',
  // A note and never `now`: the protector has acted.
  'ended-by-protector': undefined,
};

export interface Urgent {
  alarm: AlarmKind;
  priority: Priority;
  evidence?: Evidence;
}

export function urgencyOf({ alarm, priority, evidence }: Urgent): Urgency {
  if (priority !== 'now') return priority;
  const form = formOf(alarm, evidence);
  return (form && FORM_LEVELS[form]) ?? nowLevel(alarm);
}

/** Is the first more urgent than the second? */
export function isMoreUrgent(one: Urgency, other: Urgency): boolean {
  return URGENCIES.indexOf(one) < URGENCIES.indexOf(other);
}
