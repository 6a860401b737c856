import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { NoticeRow } from '../../src/core/notify/notice-row.ts';
import { openOutbox, type OutboxOptions } from '../../src/channels/outbox.ts';
import { MAX_TRIES } from '../../src/channels/retry.ts';
import { sendFailure, noticeKey, type Send, type SendResult } from '../../src/channels/sender.ts';
import { handClock, memoryStore, notice, NOW_MS, flushPromises } from './support.ts';

const SENT: SendResult = { sent: true };
const DAY = 24 * 3600_000;

function row(id: string, more: Partial<NoticeRow> = {}): NoticeRow {
  return notice({ id, ...more });
}

/** A receiver that notes what it was handed; `answer` decides, by how many tries it has seen. */
function receiver(answer: (id: string, tries: number) => SendResult = () => SENT): {
  send: Send;
  seen: string[];
} {
  const seen: string[] = [];
  return {
    seen,
    send(notice) {
      seen.push(notice.id);
      return Promise.resolve(answer(notice.id, seen.filter((id) => id === notice.id).length));
    },
  };
}

async function runFor(
  ms: number,
  options: Pick<OutboxOptions, 'store' | 'senderFor'> & Partial<OutboxOptions>,
): Promise<void> {
  const clock = handClock();
  const outbox = openOutbox({ ...options, clock });
  await clock.run(NOW_MS + ms);
  await outbox.close();
}

describe('openOutbox', () => {
  test('sends what is due, once, and marks it', async () => {
    const store = memoryStore([
      row('a'),
      row('b'),
      row('c', { state: 'sent' }),
      row('d', { state: 'given-up' }),
    ]);
    const { send, seen } = receiver();
    await runFor(DAY, { store, senderFor: () => send });
    expect(seen.sort()).toEqual(['a', 'b']);
    expect(
      [...store.rows.values()].map(({ id, state, tries, sentMs }) => [id, state, tries, sentMs]),
    ).toEqual([
      ['a', 'sent', 1, NOW_MS],
      ['b', 'sent', 1, NOW_MS],
      ['c', 'sent', 0, undefined],
      ['d', 'given-up', 0, undefined],
    ]);
  });

  test('tries again later with the reason kept, and forgets the reason when it went', async () => {
    const store = memoryStore([row('a')]);
    const { send, seen } = receiver((_id, tries) =>
      tries < 4 ? sendFailure('The relay sleeps.', true) : SENT,
    );
    const clock = handClock();
    const outbox = openOutbox({ store, senderFor: () => send, clock });
    await clock.run(NOW_MS);
    expect(store.rows.get('a')).toMatchObject({
      state: 'due',
      tries: 1,
      dueMs: NOW_MS + 15_000,
      lastError: 'The relay sleeps.',
    });
    await clock.run(NOW_MS + 15_000 + 30_000 + 60_000);
    expect(seen).toHaveLength(4);
    expect(store.rows.get('a')).toMatchObject({ state: 'sent', tries: 4 });
    expect(store.rows.get('a')).not.toHaveProperty('lastError');
    await outbox.close();
  });

  test('gives up at the limit, visibly', async () => {
    const store = memoryStore([row('a')]);
    const settledRows: string[] = [];
    const { send, seen } = receiver(() => sendFailure('The relay sleeps.', true));
    await runFor(3 * DAY, { store, senderFor: () => send, onSettled: (one) => settledRows.push(one.state) });
    expect(seen).toHaveLength(MAX_TRIES);
    expect(store.rows.get('a')).toMatchObject({
      state: 'given-up',
      tries: MAX_TRIES,
      lastError: 'The relay sleeps.',
    });
    expect(settledRows).toEqual(['given-up']);
  });

  test('gives up at once where trying again cannot help, and where the way is gone from the settings', async () => {
    const store = memoryStore([row('a'), row('b', { to: 'gone' })]);
    const { send } = receiver(() => sendFailure('No such mailbox.', false));
    await runFor(0, { store, senderFor: (to) => (to === 'gone' ? undefined : send) });
    expect(store.rows.get('a')).toMatchObject({ state: 'given-up', tries: 1, lastError: 'No such mailbox.' });
    expect(store.rows.get('b')).toMatchObject({
      state: 'given-up',
      lastError: 'The settings no longer say how to notify gone by mail:anna@farm.example.',
    });
  });

  test('a sender that throws is our own fault, told and tried again', async () => {
    const store = memoryStore([row('a')]);
    await runFor(0, { store, senderFor: () => () => Promise.reject(new Error('oops')) });
    expect(store.rows.get('a')).toMatchObject({ state: 'due', tries: 1, lastError: 'Cannot send: oops' });
  });

  test('one way goes in order: the end is not told before the beginning, whatever fails', async () => {
    const rows = [
      row('raised', { what: 'raised' }),
      row('cleared', { what: 'cleared', createdMs: NOW_MS + 1 }),
      row('other', { to: 'bo', what: 'cleared' }),
    ];
    const { send, seen } = receiver((id, tries) =>
      id === 'raised' && tries < 3 ? sendFailure('Not now.', true) : SENT,
    );
    await runFor(DAY, { store: memoryStore(rows), senderFor: () => send });
    expect(seen.filter((id) => id !== 'other')).toEqual(['raised', 'raised', 'raised', 'cleared']);
    expect(seen.indexOf('other')).toBeLessThan(seen.lastIndexOf('raised'));
  });

  test('a row that is due later does not hold up one that is due now', async () => {
    const rows = [row('later', { dueMs: NOW_MS + DAY }), row('now', { createdMs: NOW_MS + 1 })];
    const { send, seen } = receiver();
    await runFor(1000, { store: memoryStore(rows), senderFor: () => send });
    expect(seen).toEqual(['now']);
  });

  test('a poke finds new rows; pokes in a burst cost a few looks', async () => {
    const store = memoryStore([]);
    let looks = 0;
    const counted = { ...store, due: (limit: number) => ((looks += 1), store.due(limit)) };
    const { send, seen } = receiver();
    const clock = handClock();
    const outbox = openOutbox({ store: counted, senderFor: () => send, clock });
    await store.mark(row('a'));
    for (let n = 0; n < 1000; n += 1) outbox.wake();
    await clock.run(NOW_MS + 1000);
    expect(seen).toEqual(['a']);
    expect(looks).toBeLessThan(5);
    await outbox.close();
  });

  test('at most four ways at once; the others follow', async () => {
    const rows = Array.from({ length: 9 }, (_, at) => row(`r${at}`, { to: `p${at}` }));
    let [now, most] = [0, 0];
    const send: Send = async () => {
      now += 1;
      most = Math.max(most, now);
      await new Promise((resolve) => setImmediate(resolve));
      now -= 1;
      return SENT;
    };
    const store = memoryStore(rows);
    const clock = handClock();
    const outbox = openOutbox({ store, senderFor: () => send, clock });
    for (let turn = 0; turn < 20; turn += 1) await flushPromises();
    await outbox.close();
    expect(most).toBe(4);
    expect([...store.rows.values()].every(({ state }) => state === 'sent')).toBe(true);
  });

  test('a store that cannot be written: nothing is sent twice, and it is marked when it can be', async () => {
    const store = memoryStore([row('a')]);
    let full = true;
    const troubles: string[] = [];
    const { send, seen } = receiver();
    const clock = handClock();
    const outbox = openOutbox({
      store: {
        due: (limit) => store.due(limit),
        async mark(one) {
          if (full) throw new Error('the disk is full');
          await store.mark(one);
        },
      },
      senderFor: () => send,
      clock,
      onProblem: (sentence) => troubles.push(sentence),
    });
    await clock.run(NOW_MS + 10 * 60_000);
    expect(seen).toEqual(['a']);
    expect(troubles[0]).toBe('Cannot record that a notice was sent: the disk is full');
    full = false;
    await clock.run(NOW_MS + 20 * 60_000);
    await outbox.close();
    expect(seen).toEqual(['a']);
    expect(store.rows.get('a')!.state).toBe('sent');
  });

  test('close waits for what is under way and starts nothing more', async () => {
    const store = memoryStore([row('a'), row('b')]);
    let answer: (sent: SendResult) => void = () => undefined;
    const send: Send = () => new Promise((resolve) => (answer = resolve));
    const outbox = openOutbox({ store, senderFor: () => send, clock: handClock() });
    await flushPromises();
    const closing = outbox.close();
    answer(SENT);
    await closing;
    expect(store.rows.get('a')!.state).toBe('sent');
    expect(store.rows.get('b')!.state).toBe('due');
  });
});

describe('openOutbox over restarts', () => {
  /**
   * The process dies at drawn points: before a send is handed over, after it and before it is
   * marked, or after. What the dead one would have done never reaches the store. A receiver drops
   * what it has seen by its key.
   */
  test('everything is received, once by its id, and comes twice at most once for each death', async () => {
    const deaths = fc.array(
      fc.record({
        afterMarks: fc.nat({ max: 6 }),
        where: fc.constantFrom('before-send' as const, 'before-mark' as const),
      }),
      { maxLength: 8 },
    );
    const people = fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 1, maxLength: 12 });
    await fc.assert(
      fc.asyncProperty(people, deaths, fc.nat({ max: 3 }), async (whom, plan, failures) => {
        const store = memoryStore(
          whom.map((person, at) => row(`n${at}`, { to: `p${person}`, createdMs: NOW_MS + at })),
        );
        const received: string[] = [];
        const failedOf = new Map<string, number>();
        const deliver = (one: NoticeRow): SendResult => {
          const before = failedOf.get(one.id) ?? 0;
          failedOf.set(one.id, before + 1);
          if (before < failures) return sendFailure('Not now.', true);
          received.push(noticeKey(one.id));
          return SENT;
        };
        const clock = handClock();
        for (const death of [...plan, undefined]) {
          let [dead, marks] = [false, 0];
          const dies = (where: string): boolean =>
            (dead ||= death !== undefined && marks >= death.afterMarks && death.where === where);
          const outbox = openOutbox({
            store: {
              due: async (limit) => (dead ? [] : await store.due(limit)),
              async mark(one) {
                if (dies('before-mark')) throw new Error('killed');
                marks += 1;
                await store.mark(one);
              },
            },
            senderFor: () => (one) =>
              Promise.resolve(dies('before-send') ? sendFailure('killed', true) : deliver(one)),
            clock,
          });
          await clock.run(clock.nowMs() + DAY);
          await outbox.close().catch(() => undefined);
        }
        expect(new Set(received)).toEqual(new Set([...store.rows.keys()].map(noticeKey)));
        expect([...store.rows.values()].every(({ state }) => state === 'sent')).toBe(true);
        // Four ways are served at once, so one death can cut off four markings.
        expect(received.length - store.rows.size).toBeLessThanOrEqual(4 * plan.length);
      }),
      { seed: 20_260_402, numRuns: 60 },
    );
  });
});
