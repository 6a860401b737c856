/** An alarm as it is kept, shown and handed over: one row for its life. */
import type { AlarmEvent } from '../../../../shared/api/events.ts';

/** An alarm as people see it: one row for its life, from raised to cleared or withdrawn. */
export interface AlarmRow {
  /**
   * `${well}/${pump or '-'}/${alarm}/${since as Unix ms}`: made from what happened, not from a
   * counter.
   */
  id: string;
  well: string;
  site?: string;
  pump?: string;
  node?: string;
  alarm: string;
  /** Lifecycle state by the standard's names; see src/core/alarms/lifecycle/lifecycle.ts. */
  state: string;
  sinceMs: number;
  raisedMs: number;
  clearedMs?: number;
  withdrawnMs?: number;
  acknowledgedMs?: number;
  acknowledgedBy?: string;
  shelvedUntilMs?: number;
  /** The last raised or changed line, whole. */
  event: AlarmEvent;
}
