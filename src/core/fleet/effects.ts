/**
 * What the fleet asks of whoever holds it: to keep, to tell, to count. The live server makes
 * changes of its store of them; `replay` prints lines and counts.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import type { AlarmRow } from '../alarms/lifecycle/alarm-row.ts';
import type { NodeNews } from '../readings/news.ts';
import type { SiteState } from '../readings/site-silence.ts';
import type { Emitted } from '../well/emit.ts';

export type FleetEffect =
  /** A line of a well's engine; `alarm` says what becomes of one that is about an alarm. */
  | { is: 'emitted'; emitted: Emitted }
  /** A line of a whole site. */
  | { is: 'site-alarm'; event: AlarmEvent; atMs: number }
  /** The row of an alarm as it is now; `told` where people are to hear of it. */
  | { is: 'alarm'; row: AlarmRow; told?: { event: AlarmEvent; before?: AlarmRow } }
  /** A fault of our own stopped a well: for the log. */
  | { is: 'fault'; sentence: string }
  /** Waits now among the inputs of this well. */
  | { is: 'news'; well: string; atMs: number; node: NodeNews }
  | { is: 'site-changed'; site: SiteState }
  /** Its news was taken out of its state. */
  | { is: 'node-changed'; node: string };

export type EmitEffect = (effect: FleetEffect) => void;
