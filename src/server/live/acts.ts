/** What people do: read, given to the fleet, and kept as it was written. */
import { handle } from '../../core/fleet/handle.ts';
import { readAct } from '../../core/domain/read-act.ts';
import { fleetReasonText } from '../../core/fleet/reason-text.ts';
import { applyEffects } from './apply-effect.ts';
import type { LiveState } from './state.ts';
import { texts } from '../texts.ts';

export type ActResult = { done: true; atMs: number } | { problem: string };

/** Does what a person wrote (contract, section 6). The change is pushed; the caller commits. */
export function applyAct(live: LiveState, json: unknown, nowMs: number, by?: string): ActResult {
  const read = readAct(json, { strict: true });
  if ('problem' in read) return { problem: read.problem };
  const input = { is: 'act', act: read.act, ...(by !== undefined && { by }) } as const;
  const effects = handle(live, input, nowMs);
  applyEffects(live, effects, { nowMs, json });
  const accepted = effects.find((effect) => effect.is === 'accepted');
  if (accepted) return { done: true, atMs: accepted.atMs };
  const rejected = effects.find((effect) => effect.is === 'rejected');
  return { problem: rejected ? fleetReasonText(rejected.why) : texts().cannotDoThis };
}
