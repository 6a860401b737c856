/** What a page is shown of a well just now. */
import { expect, it } from 'vitest';
import { liveWell, wellStatus } from '../../../src/server/live/view.ts';
import { MINUTE, NOON, openRig, packText, times, type Rig } from './rig.ts';
import { useTestTimers } from './timers.ts';

useTestTimers();

/** Ten minutes of rest, then five of running, a pack a minute. */
async function running(): Promise<Rig> {
  const rig = await openRig();
  await rig.live.applyAct({ kind: 'card-changed', card: { well: 'barn', pump: { maxAmps: '9.8 A' } } });
  for (let seq = 1; seq <= 15; seq++) {
    const fromMs = rig.nowMs();
    await rig.wait(MINUTE, 10_000);
    const current = times(60, seq > 10 ? 7.9 : 0.02);
    await rig.send(
      'wells/barn/readings',
      packText('barn', { fromMs, seq, current, pressure: times(60, 330) }),
    );
  }
  return rig;
}

it('a running pump says since when, with its amps and pressure, and how long it ran today', async () => {
  const line = (await running()).live.state().pipelines.get('barn')!;
  const now = wellStatus(line);
  expect(now).toMatchObject({
    well: 'barn',
    mode: 'learning',
    pressureKpa: 330,
    lastReadingMs: NOON + 15 * MINUTE - 1000,
  });
  expect(now.pumps).toMatchObject([
    { pump: 'p1', running: true, sinceMs: NOON + 10 * MINUTE, amps: 7.9, startsToday: 1, ranTodayS: 299 },
  ]);
});

it('a visit and a lay-up are the mode', async () => {
  const rig = await running();
  const mode = async (): Promise<unknown> => {
    await rig.wait(3 * MINUTE, 10_000);
    const { mode: is, modeUntilMs } = wellStatus(rig.live.state().pipelines.get('barn')!);
    return [is, modeUntilMs];
  };
  await rig.live.applyAct({ kind: 'visit-opened', well: 'barn' });
  expect(await mode()).toEqual(['visit', undefined]);
  await rig.live.applyAct({ kind: 'visit-closed', well: 'barn' });
  const until = new Date(NOON + 90 * 86_400_000).toISOString();
  await rig.live.applyAct({ kind: 'laid-up', well: 'barn', until });
  expect(await mode()).toEqual(['laid-up', NOON + 90 * 86_400_000]);
});

it('sensors are named by node, with when they last spoke', async () => {
  const { sensors, normals } = liveWell((await running()).live.state().pipelines.get('barn')!);
  const lastMs = NOON + 15 * MINUTE - 1000;
  expect(sensors).toEqual([
    { channel: 'current', node: 'barn', lastMs },
    { channel: 'pressure', node: 'barn', lastMs },
  ]);
  expect(normals).toEqual([]);
});

it('what another alarm explains stands as its symptom', async () => {
  const rig = await openRig();
  await rig.live.applyAct({
    kind: 'card-changed',
    card: { well: 'barn', switch: { cutIn: '40 psi', cutOut: '60 psi' } },
  });
  for (let seq = 1; seq <= 12; seq++) {
    const fromMs = rig.nowMs();
    await rig.wait(MINUTE, 10_000);
    const pressure = times(60, seq > 5 ? 3 : 330);
    const current = times(60, seq === 2 ? 7.9 : 0.02);
    await rig.send('wells/barn/readings', packText('barn', { fromMs, seq, current, pressure }));
  }
  await rig.wait(MINUTE, 10_000);
  const { symptoms } = wellStatus(rig.live.state().pipelines.get('barn')!);
  expect(symptoms).toMatchObject([{ alarm: 'no-water', symptomOf: 'no-start', notified: false }]);
});

it('a card is shown as it was written last, also while the well waits for its node', async () => {
  const rig = await running();
  const shown = (): unknown => {
    const { card } = liveWell(rig.live.state().pipelines.get('barn')!);
    return [card.pumps.map(({ id, maxAmps }) => [id, maxAmps]), card.switch?.cutInKpa];
  };
  const write = (card: Record<string, unknown>): Promise<unknown> =>
    rig.live.applyAct({ kind: 'card-changed', card: { well: 'barn', ...card } });
  expect(shown()).toEqual([[['p1', 9.8]], undefined]);
  await write({ pump: { maxAmps: '8 A' } });
  await write({ pump: { maxAmps: '7 A' }, switch: { cutIn: '276 kPa', cutOut: '414 kPa' } });
  expect(shown()).toEqual([[['p1', 7]], 276]);
  // With another pump it is shown once the well has taken it in.
  await write({ pumps: { p1: { pump: { maxAmps: '6 A' } }, p2: { pump: { maxAmps: '5 A' } } } });
  expect(shown()).toEqual([[['p1', 9.8]], undefined]);
  await rig.wait(3 * MINUTE, 10_000);
  expect(shown()).toEqual([
    [
      ['p1', 6],
      ['p2', 5],
    ],
    undefined,
  ]);
});
