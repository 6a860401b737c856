/**
 * What goes wrong stays where it is: a full disk loses nothing, a fault of our own stops one well.
 */
import { noticeText } from '../../../src/core/notify/notice-text.ts';
import { describe, expect, it } from 'vitest';
import { helloText, MINUTE, NOON, openRig, packText, times, type Rig } from './rig.ts';
import { useTestTimers } from './timers.ts';

useTestTimers();

const pack = (node: string, seq: number): string =>
  packText(node, { fromMs: NOON + (seq - 1) * 10_000, seq, current: times(10, 0.05) });

const readings = async (rig: Rig, node: string): Promise<number> =>
  (await rig.store.readings(node, 'current', 0, Number.MAX_SAFE_INTEGER)).n;

describe('a full disk', () => {
  it('is said, promises nothing, and loses nothing once there is room', async () => {
    const rig = await openRig();
    await rig.send('wells/barn/hello', helloText());
    await rig.send('wells/barn/readings', pack('barn', 1));
    await rig.wait(1000);
    rig.disk.full = true;
    const lost = await rig.send('wells/barn/readings', pack('barn', 2));
    await rig.wait(30_000);
    expect(lost.kept).toBe(false);
    expect(rig.live.healthProblems()).toEqual(['Cannot keep: the disk is full. Make room.']);
    expect(rig.published.get('wells/barn/kept')).toBe('{"boot":17,"seq":1}');
    expect(await rig.live.applyAct({ kind: 'visit-opened', well: 'barn' })).toMatchObject({
      problem: expect.stringContaining('disk is full') as string,
    });

    rig.disk.full = false;
    await rig.wait(15_000);
    expect(rig.live.healthProblems()).toEqual([]);
    expect(await readings(rig, 'barn')).toBe(10);
    // The node was told nothing, and sends again.
    expect((await rig.send('wells/barn/readings', pack('barn', 2))).kept).toBe(true);
    await rig.wait(2000);
    expect(await readings(rig, 'barn')).toBe(20);
    expect(rig.published.get('wells/barn/kept')).toBe('{"boot":17,"seq":2}');
    expect(await rig.live.applyAct({ kind: 'visit-opened', well: 'barn' })).toMatchObject({ done: true });
  });

  it('asks once for what could not be kept, when it can be kept again', async () => {
    const lost: number[] = [];
    const rig = await openRig({ onLost: (messages) => lost.push(messages) });
    rig.disk.full = true;
    for (const seq of [1, 2, 3]) await rig.send('wells/barn/readings', pack('barn', seq));
    expect(lost).toEqual([]);
    rig.disk.full = false;
    await rig.wait(15_000);
    expect(lost).toEqual([3]);
    await rig.wait(15_000);
    expect(lost).toEqual([3]);
  });

  it('that fills in the middle of an act leaves no trace of it', async () => {
    const rig = await openRig();
    await rig.send('wells/barn/readings', pack('barn', 1));
    rig.disk.full = true;
    expect(await rig.live.applyAct({ kind: 'visit-opened', well: 'barn' })).toMatchObject({
      problem: expect.any(String) as string,
    });
    rig.disk.full = false;
    await rig.wait(15_000);
    expect((await rig.store.acts({ fromMs: 0 })).filter((row) => row.kind === 'visit-opened')).toEqual([]);
    expect(rig.live.state().pipelines.get('barn')!.state.visitOpen).toBe(false);
  });
});

/** A state that no code of ours could have left: the next reading meets it. */
function breakWell(rig: Rig, well: string): void {
  Object.assign(rig.live.state().pipelines.get(well)!.state, { trail: null, pumps: null });
}

describe('a fault of our own', () => {
  it('stops one well and says so; its readings are kept, and the others go on', async () => {
    const rig = await openRig();
    for (const node of ['barn', 'shed']) await rig.send(`wells/${node}/readings`, pack(node, 1));
    await rig.wait(10_000);
    breakWell(rig, 'barn');
    for (let seq = 2; seq <= 30; seq++) {
      for (const node of ['barn', 'shed']) await rig.send(`wells/${node}/readings`, pack(node, seq));
      await rig.wait(10_000);
    }
    expect(await rig.alarms('not-watched')).toMatchObject([
      { well: 'barn', state: 'unacknowledged', event: { priority: 'now' } },
    ]);
    expect(await rig.notices()).toMatchObject([{ what: 'raised' }]);
    expect(rig.live.healthProblems()).toMatchObject([
      expect.stringContaining('stopped the monitoring of barn'),
    ]);
    expect([await readings(rig, 'barn'), await readings(rig, 'shed')]).toEqual([300, 300]);
    expect(rig.live.state().pipelines.get('shed')!.advancedToMs).toBeGreaterThan(NOON + 280_000);
    // Nothing is hoarded for a well that stands still.
    expect(
      rig.live
        .state()
        .pipelines.get('barn')!
        .inbox.queues.reduce((sum, run) => sum + run.n, 0),
    ).toBeLessThan(30);

    await rig.restart('killed');
    expect(rig.live.state().pipelines.get('barn')!.advancedToMs).toBeGreaterThan(NOON + 280_000);
    expect((await rig.alarms('not-watched'))[0]?.clearedMs).toBeDefined();
    expect(rig.live.healthProblems()).toEqual([]);
    expect((await rig.notices()).map((notice) => notice.what)).toEqual(['raised', 'cleared']);
  });

  it('that comes again at each run is tried once a minute, and told once', async () => {
    const rig = await openRig();
    await rig.send('wells/barn/readings', pack('barn', 1));
    await rig.wait(MINUTE);
    await rig.send('wells/barn/readings', pack('barn', 7));
    await rig.wait(20 * MINUTE);
    rig.disk.odd = true;
    await rig.send('wells/barn/readings', pack('barn', 3));
    const before = rig.live.state().counts.reruns;
    await rig.wait(10 * MINUTE);
    expect(rig.live.state().counts.reruns - before).toBeLessThanOrEqual(11);
    expect((await rig.alarms('not-watched')).length).toBe(1);
    expect(
      (await rig.notices()).filter(
        (notice) => noticeText(notice).subject.includes('barn') && notice.what === 'raised',
      ).length,
    ).toBe(1);
    rig.disk.odd = false;
    await rig.wait(MINUTE);
    expect(await readings(rig, 'barn')).toBe(30);
    expect((await rig.alarms('not-watched'))[0]?.clearedMs).toBeDefined();
  });

  it('in one message leaves that message out, and takes the others', async () => {
    const rig = await openRig();
    await rig.send('wells/barn/readings', pack('barn', 1));
    const { nodes } = rig.live.state();
    // The book of one node is broken: whatever comes from it throws.
    Object.assign(nodes.get('barn')!.state, { liveness: null });
    rig.live.receive({
      topic: 'wells/barn/readings',
      payload: new TextEncoder().encode(pack('barn', 2)),
      retained: false,
    });
    const other = await rig.send('wells/shed/readings', pack('shed', 1));
    await rig.wait(20_000);
    expect(other.kept).toBe(true);
    expect(await readings(rig, 'shed')).toBe(10);
    expect(rig.live.healthProblems()).toEqual([]);
    // From the store the book is whole again, and the node sends again.
    await rig.send('wells/barn/readings', pack('barn', 2));
    expect(await readings(rig, 'barn')).toBe(20);
  });
});
