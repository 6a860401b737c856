/** Messages queue up, and a turn takes all that came. */
import { StoreError } from '../../store/store-error.ts';
import type { ReceivedMessage } from './intake.ts';
import { errorMessage, reload, requestResend, withRecovery, type Loop } from './loop.ts';
import { processTurn } from './turn.ts';
import { notifyViewers } from './viewers.ts';
import { texts } from '../texts.ts';

/** When few messages come, a turn waits this long for more: fewer commits, and nobody notices. */
export const BATCH_DELAY_MS = 15;
/** A turn of this many did not need to wait: 64 a turn is a commit's cost well shared. */
const BUSY_TURN_MESSAGES = 64;
/** One turn takes this many messages at most, so that no commit grows without end. */
const MAX_TURN_MESSAGES = 2000;
/**
 * After this many waiting messages the oldest are not taken in: a node sends again what was not
 * kept.
 */
const MAX_QUEUED_MESSAGES = 50_000;

export function receive(loop: Loop, message: Omit<ReceivedMessage, 'arrivalMs'>): void {
  if (loop.closed) return;
  if (loop.queue.length >= MAX_QUEUED_MESSAGES) {
    loop.lostMessages++;
    return;
  }
  loop.queue.push({ ...message, arrivalMs: loop.options.now() });
  // Under load messages gather by themselves while a turn works; waiting for more would only leave
  // the machine idle.
  const isBusy = loop.lastTurnMessages >= BUSY_TURN_MESSAGES;
  if (!loop.turnDue) scheduleTurn(loop, isBusy ? 0 : loop.batchDelayMs);
  else if (loop.queue.length === MAX_TURN_MESSAGES && loop.timer !== undefined) {
    clearTimeout(loop.timer);
    scheduleTurn(loop, 0);
  }
}

function scheduleTurn(loop: Loop, waitMs: number): void {
  loop.turnDue = true;
  loop.timer = setTimeout(() => {
    loop.timer = undefined;
    void loop.mutex.run(() => runTurn(loop));
  }, waitMs);
}

async function runTurn(loop: Loop): Promise<void> {
  if (loop.closed) return;
  const received = loop.queue.splice(0, MAX_TURN_MESSAGES);
  loop.lastTurnMessages = received.length;
  await handleAll(loop, received);
  // What came while this turn waited for the store has a turn of its own, once the event loop had
  // its time.
  if (loop.queue.length > 0) {
    scheduleTurn(loop, 0);
    return;
  }
  loop.turnDue = false;
  requestResend(loop);
  for (const done of loop.drainWaiters.splice(0)) done();
}

/**
 * A turn over all that came. Where a fault of our own broke it, each message has a turn to itself:
 * the one that breaks its own is left out and said, the others are taken.
 */
async function handleAll(loop: Loop, received: readonly ReceivedMessage[]): Promise<void> {
  let handled = false;
  const failure = await withRecovery(loop, async () => {
    const end = await processTurn(loop.live, received, loop.options.now());
    handled = true;
    notifyViewers(loop.live, loop.viewers, end, received.length > 0);
    if (end.committed) loop.options.onCommit?.();
  });
  if (handled) return;
  if (failure === undefined || failure instanceof StoreError || !(await reload(loop))) {
    loop.lostMessages += received.length;
    return;
  }
  if (received.length > 1) for (const message of received) await handleAll(loop, [message]);
  else
    loop.options.log(
      'error',
      texts().messageToWasLeftOut({
        topic: received[0]?.topic ?? 'nobody',
        errorMessage: errorMessage(failure),
      }),
    );
}
