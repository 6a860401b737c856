/**
 * What a replay holds at once does not grow with the recording: a week of readings, a day of lines.
 */
import { expect, test } from 'vitest';
import type { WellEvent } from '../../shared/api/events.ts';
import { pendingCount } from '../../src/core/readings/inbox.ts';
import { SETTLE_MS } from '../../src/core/fleet/settling.ts';
import { finish, settle } from '../../src/replay/settle.ts';
import { newReplay } from '../../src/replay/state.ts';
import { handleLine } from '../../src/replay/handle-line.ts';
import { DAY, NINE, packLine, S } from './support.ts';

const MINUTE = 60 * S;

test('settle: two months of a well wait a week at most', () => {
  const replay = newReplay([], new Map());
  const said: WellEvent[] = [];
  let most = 0;
  let mostLines = 0;
  const steps = 60 * 24 * 6;
  for (let i = 0; i < steps; i++) {
    // A pack each ten minutes, a reading a minute; it runs two of every twenty.
    const amps = Array.from({ length: 10 }, (_, k) => (i % 2 === 0 && k < 2 ? 8 : 0));
    const line = packLine({ seq: i + 1, atMs: NINE + i * 10 * MINUTE, everyMs: MINUTE, amps });
    handleLine(replay, 'wells', Buffer.from(line));
    settle(replay, (event) => said.push(event));
    most = Math.max(most, pendingCount(replay.pipelines.get('barn')!.inbox));
    mostLines = Math.max(mostLines, replay.eventQueue.events.length);
  }
  // A week at a reading a minute, and the ten minutes of the last piece and the last pack.
  expect(most).toBeLessThanOrEqual(SETTLE_MS / MINUTE + 20);
  expect(most).toBeGreaterThan(SETTLE_MS / MINUTE - 20);
  // A day has 72 runs and its own line; alarms are a few.
  expect(mostLines).toBeLessThan(200);
  const before = said.length;
  expect(before).toBeGreaterThan(50 * 70);
  finish(replay, (event) => said.push(event));
  expect(pendingCount(replay.pipelines.get('barn')!.inbox)).toBe(0);
  expect(said.filter((event) => event.event === 'day').length).toBe(60);
  // The last week, and the day before it that waited for what could still come before its lines.
  expect(said.length - before).toBeGreaterThan((SETTLE_MS / DAY) * 70);
});

test('settle: the same lines however time goes on, in one piece at the end too', () => {
  const lines = Array.from({ length: 2000 }, (_, i) =>
    Buffer.from(
      packLine({
        seq: i + 1,
        atMs: NINE + i * 10 * MINUTE,
        everyMs: MINUTE,
        amps: [8, 8, 0, 0, 0, 0, 0, 0, 0, 0],
      }),
    ),
  );
  const [often, once] = [false, true].map((atEnd) => {
    const replay = newReplay([], new Map());
    const said: WellEvent[] = [];
    for (const line of lines) {
      handleLine(replay, 'wells', line);
      if (!atEnd) settle(replay, (event) => said.push(event));
    }
    finish(replay, (event) => said.push(event));
    return said;
  });
  expect(once).toEqual(often);
  expect(once!.length).toBeGreaterThan(1900);
});
