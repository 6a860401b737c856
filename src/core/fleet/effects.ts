/**
 * What the fleet asks of whoever holds it: to keep, to tell, to count. The live server makes
 * changes of its store of them; `replay` prints lines and counts.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import type { AlarmRow } from '../alarms/lifecycle/alarm-row.ts';
import type { Refusal } from '../decode/messages.ts';
import type { Act } from '../domain/act.ts';
import type { NodeNews } from '../readings/news.ts';
import type { PlacedPack } from '../readings/placed-pack.ts';
import type { SiteState } from '../readings/site-silence.ts';
import type { Emitted } from '../well/emit.ts';
import type { FleetReason } from './reason-text.ts';
import type { WellPipeline } from './well-pipeline.ts';

export type FleetEffect =
  /** A pack that came for the first time: it has its place in time. */
  | { is: 'pack'; placed: PlacedPack }
  | { is: 'duplicate' }
  /** Some of the pack before is older than the settling time: kept, and told to nobody. */
  | { is: 'too-late' }
  /** This well is to be run again from here, once that is due; null where it was. */
  | { is: 'rerun-mark'; well: string; fromMs: number | null }
  /** The well was run again: what was derived of it since then is gone, and comes anew. */
  | { is: 'made-again'; well: string; sinceMs: number }
  /** A message counts for nothing; `countOnly` where its like is kept for a look already. */
  | { is: 'refused'; refusal: Pick<Refusal, 'refused' | 'why' | 'node'>; countOnly: boolean }
  /** A hello names nodes that it has no right to speak for; the rest of it counts. */
  | { is: 'ignored-names'; node: string; why: FleetReason; countOnly: boolean }
  /** A well was made for a node that no card names. */
  | { is: 'default-well'; node: string }
  /** An act was done, and its wells meet it at this time. */
  | { is: 'accepted'; act: Act; atMs: number; by?: string }
  /** An act or approval was not done, and why. */
  | { is: 'rejected'; why: FleetReason }
  /** A well was passed on. */
  | { is: 'advanced'; well: string }
  /** The state of a well's engine is to be saved with what else is committed now. */
  | { is: 'save-well'; pipeline: WellPipeline }
  /** A line of a well's engine; `alarm` says what becomes of one that is about an alarm. */
  | { is: 'emitted'; emitted: Emitted }
  /** A line of a whole site. */
  | { is: 'site-alarm'; event: AlarmEvent; atMs: number }
  /** The row of an alarm as it is now; `news` where people are to hear of it. */
  | { is: 'alarm'; row: AlarmRow; news?: { event: AlarmEvent; before?: AlarmRow } }
  /** A fault of our own stopped a well: for the log. */
  | { is: 'fault'; why: FleetReason }
  /** Waits now among the inputs of this well. */
  | { is: 'news'; well: string; atMs: number; node: NodeNews }
  | { is: 'site-changed'; site: SiteState }
  /** The state of a node is to be saved with what else is committed now. */
  | { is: 'node-changed'; node: string };

export type EmitEffect = (effect: FleetEffect) => void;
