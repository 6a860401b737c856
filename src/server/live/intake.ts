/** A message as the broker handed it over, decoded and given to the fleet. */
import { handle } from '../../core/fleet/handle.ts';
import { readMessage } from '../../core/decode/read-message.ts';
import { applyEffects } from './apply-effect.ts';
import type { LiveState } from './state.ts';

export interface ReceivedMessage {
  topic: string;
  payload: Uint8Array;
  retained: boolean;
  arrivalMs: number;
  contentType?: string;
  /**
   * Names that the sender's credential was given beside its own; absent where the broker knows no
   * credential of it.
   */
  given?: () => readonly string[];
  /** Calls back once the message is on disk. */
  acknowledge?: () => void;
}

export function handleReceived(live: LiveState, received: ReceivedMessage): void {
  live.counts.messages++;
  const { arrivalMs } = received;
  const message = readMessage({ root: live.options.root, ...received });
  const given = message.is === 'hello' ? received.given?.() : undefined;
  const input = { is: 'message', message, ...(given && { given }) } as const;
  applyEffects(live, handle(live, input, arrivalMs), { nowMs: arrivalMs, received });
}
