/**
 * A reference reading followed through the whole line: packs of a node in, what the page is told
 * out.
 */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { GuidedRunAnswer } from '../../../shared/api/readings.ts';
import { DEFAULT_SETTINGS } from '../../../src/config/read-settings.ts';
import { webDeps } from '../../../src/server/web-deps.ts';
import { openDocuments } from '../../../src/store/document-files.ts';
import { guidedRunAnswer } from '../../../src/http/answers/reading-answers.ts';
import { MINUTE, openRig, packText, type Rig } from './rig.ts';
import { useTestTimers } from './timers.ts';

useTestTimers();

const RUN_S = 95;
/** Seconds after noon: rests, runs from 12 min on, rests again. */
const START_S = 12 * 60;

function kpaAt(s: number): number {
  if (s < START_S) return 276 + (START_S - s) * 0.1;
  return Math.min(414, 276 + ((s - START_S) / RUN_S) * 138);
}

/** A node that sends each ten seconds what it read. */
async function rig(): Promise<{
  rig: Rig;
  until: (s: number) => Promise<void>;
  ask: (since: number) => Promise<GuidedRunAnswer>;
}> {
  const one = await openRig();
  await one.live.applyAct({
    kind: 'card-changed',
    card: { well: 'barn', control: 'pressure-switch', pump: { maxAmps: '9.8 A' } },
  });
  const noonMs = one.nowMs();
  let [at, seq] = [0, 0];
  const until = async (s: number): Promise<void> => {
    for (; at < s; at += 10) {
      await one.wait(10_000);
      const seconds = Array.from({ length: 10 }, (_, i) => at + i);
      const running = (x: number): boolean => x >= START_S && x < START_S + RUN_S;
      const pack = packText('barn', {
        fromMs: noonMs + at * 1000,
        seq: ++seq,
        current: seconds.map((x) => (running(x) ? 7.9 : 0.02)),
        pressure: seconds.map(kpaAt),
      });
      await one.send('wells/barn/readings', pack);
    }
  };
  const broker = { connectedNodes: () => [] } as never;
  const { live, store, nowMs: now } = one;
  const papers = openDocuments(mkdtempSync(join(tmpdir(), 'papers-')));
  const deps = webDeps({
    settings: DEFAULT_SETTINGS,
    store,
    documents: papers,
    live,
    broker,
    phones: {} as never,
    loopDelay: {} as never,
    version: '0',
    now,
    log: () => undefined,
  });
  return { rig: one, until, ask: (since) => guidedRunAnswer(deps, 'barn', { since, pump: 'p1' }) };
}

it('a run is followed from rest to stop, and its numbers are those of the cycle that was kept', async () => {
  const { rig: one, until, ask } = await rig();
  await until(600);
  const sinceMs = one.nowMs();
  await until(700);
  expect(await ask(sinceMs)).toMatchObject({
    run: { is: 'waiting' },
    clamp: { node: 'barn', channel: 'current', readA: 0.02 },
  });
  await until(START_S + 40);
  const running = await ask(sinceMs);
  expect(running.run).toMatchObject({ is: 'running', long: false });
  expect(running.clamp).toMatchObject({ readA: 7.9, amps: 7.9 });
  await until(START_S + RUN_S + 60);
  const { run } = await ask(sinceMs);
  const [cycle] = (await one.store.cycles('barn', 0, one.nowMs() + MINUTE)).map(({ event }) => event);
  expect(cycle).toMatchObject({ ranS: RUN_S, amps: 7.9 });
  expect(run).toEqual({
    is: 'done',
    started: cycle?.started,
    stopped: cycle?.stopped,
    readings: [
      { kind: 'amps', si: 7.9 },
      { kind: 'cut-in', si: cycle?.cutInKpa },
      { kind: 'cut-out', si: cycle?.cutOutKpa },
      { kind: 'fill-time', si: RUN_S },
    ],
    missing: [],
    coarse: false,
  });
  expect(cycle?.cutInKpa).toBeCloseTo(276, 0);
});

it('a calibrated clamp is compared as it is corrected, and calibrated by what it read', async () => {
  const { rig: one, until, ask } = await rig();
  await until(600);
  await one.live.applyAct({
    kind: 'calibrated',
    node: 'barn',
    channel: 'current',
    points: [
      [0, 0],
      [7.9, 8.3],
    ],
  });
  await until(START_S + 40);
  const { clamp } = await ask(one.nowMs() - 60_000);
  expect(clamp?.readA).toBe(7.9);
  expect(clamp?.amps).toBeCloseTo(8.3, 6);
});

it('a node that fell silent is said to be so', async () => {
  const { rig: one, until, ask } = await rig();
  await until(600);
  const sinceMs = one.nowMs();
  await one.wait(5 * MINUTE, 10_000);
  expect((await ask(sinceMs)).run).toMatchObject({ is: 'no-data' });
  expect((await ask(sinceMs)).text).toContain('No reading from the clamp for');
});
