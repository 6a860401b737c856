/**
 * What comes, whatever it is, is placed, doubled, refused or held back, and never stops the next.
 */
import { describe, expect, it } from 'vitest';
import { helloText, NOON, openRig, packText, times } from './rig.ts';
import { useTestTimers } from './timers.ts';

useTestTimers();

const goodPack = (seq: number): string =>
  packText('barn', { fromMs: NOON + seq * 10_000 - 10_000, seq, current: times(10, 0.1) });

describe('a message', () => {
  it.each([
    ['no JSON', 'wells/barn/readings', '[{"n":"current"', false, 'not-json'],
    ['an empty pack', 'wells/barn/readings', '[]', false, 'empty'],
    [
      'of another node',
      'wells/barn/readings',
      '[{"n":"shed:current","u":"A","v":1}]',
      false,
      'name-mismatch',
    ],
    ['a kept copy', 'wells/barn/readings', goodPack(1), true, 'retained'],
    ['to a topic of no use', 'wells/barn/wishes', '{}', false, 'unknown-topic'],
    ['a hello that is none', 'wells/barn/hello', '{"contract":"one"}', false, 'bad-hello'],
  ])(
    'that is %s is counted by its reason, kept for a look, and does not stop the next',
    async (_what, topic, payload, retained, reason) => {
      const rig = await openRig();
      const bad = await rig.send(topic, payload, { retained });
      const good = await rig.send('wells/barn/readings', goodPack(1));
      const { counts, last } = await rig.store.refused(10);
      expect(counts).toEqual([{ reason, count: 1, lastMs: NOON }]);
      expect(last).toMatchObject([{ reason, topic, head: Buffer.from(payload).toString('base64') }]);
      expect([bad.kept, good.kept]).toEqual([true, true]);
      expect((await rig.store.readings('barn', 'current', 0, Number.MAX_SAFE_INTEGER)).n).toBe(10);
      expect(rig.log).toEqual([]);
    },
  );

  it('refused whose boot and seq can be read is no more wanted', async () => {
    const rig = await openRig();
    await rig.send('wells/barn/hello', helloText());
    await rig.send('wells/barn/readings', goodPack(1));
    await rig.send(
      'wells/barn/readings',
      '[{"bn":"barn:","bt":1772452810,"boot":17,"seq":2,"n":"current","u":"degF","v":1}]',
    );
    await rig.send('wells/barn/readings', goodPack(3));
    await rig.wait(2000);
    expect((await rig.store.refused(5)).counts).toMatchObject([{ reason: 'wrong-unit' }]);
    expect(rig.published.get('wells/barn/kept')).toBe('{"boot":17,"seq":3}');
  });

  it('that comes twice counts once', async () => {
    const rig = await openRig();
    await rig.send('wells/barn/readings', goodPack(1));
    await rig.send('wells/barn/readings', goodPack(1));
    expect(rig.live.state().counts).toMatchObject({ packs: 1, duplicates: 1, readings: 10 });
  });

  it('is told to be kept only once it is on disk, and once a second at most', async () => {
    const rig = await openRig();
    for (let seq = 1; seq <= 5; seq++) await rig.send('wells/barn/readings', goodPack(seq));
    expect(rig.publishCounts.get('wells/barn/kept')).toBe(1);
    await rig.wait(1000);
    expect(rig.publishCounts.get('wells/barn/kept')).toBe(2);
    expect(rig.published.get('wells/barn/kept')).toBe('{"boot":17,"seq":5}');
  });

  it('later than the settling time is stored and counted, and runs nothing again', async () => {
    const rig = await openRig();
    await rig.send('wells/barn/readings', goodPack(1));
    await rig.wait(5 * 60_000, 60_000);
    const before = rig.live.state().counts.reruns;
    await rig.send(
      'wells/barn/readings',
      packText('barn', { fromMs: NOON - 8 * 86_400_000, boot: 3, seq: 1, current: times(10, 0.1) }),
    );
    await rig.wait(5 * 60_000, 60_000);
    expect(rig.live.state().counts).toMatchObject({ tooLate: 1, reruns: before });
    expect((await rig.store.readings('barn', 'current', 0, NOON - 86_400_000)).n).toBe(10);
  });
});

describe('a node that was not approved', () => {
  it('is listed with what it says, told to hold, and loses nothing once it is approved', async () => {
    const rig = await openRig({ approveAll: false });
    await rig.send('wells/barn/hello', helloText({ firmware: 'tarn-clamp 0.3.1' }));
    await rig.send('wells/barn/readings', goodPack(1));
    await rig.wait(2000);
    expect(rig.published.get('wells/barn/kept')).toBe('{"wait":true}');
    expect(await rig.store.nodes()).toMatchObject([
      { node: 'barn', approved: false, hello: { firmware: 'tarn-clamp 0.3.1' } },
    ]);
    expect((await rig.store.refused(5)).counts).toMatchObject([{ reason: 'not-let-in', count: 1 }]);
    expect([...rig.live.state().pipelines.keys()]).toEqual([]);

    await rig.restart('killed');
    expect(await rig.live.approveNode('barn')).toBeUndefined();
    await rig.wait(2000);
    expect(rig.published.get('wells/barn/kept')).toBe('{"boot":17,"seq":0}');
    await rig.send('wells/barn/readings', goodPack(1));
    await rig.send('wells/barn/readings', goodPack(2));
    await rig.wait(2000);
    expect(rig.published.get('wells/barn/kept')).toBe('{"boot":17,"seq":2}');
    expect([...rig.live.state().pipelines.keys()]).toEqual(['barn']);
    expect((await rig.store.readings('barn', 'current', 0, Number.MAX_SAFE_INTEGER)).n).toBe(20);
  });

  it('hides no other refusal, however long it waits', async () => {
    const rig = await openRig({ approveAll: false });
    for (let seq = 1; seq <= 5; seq++) {
      await rig.send('wells/barn/readings', goodPack(seq));
      await rig.wait(1000);
    }
    expect((await rig.store.refused(9)).counts).toMatchObject([{ reason: 'not-let-in', count: 5 }]);
    expect((await rig.store.refused(9)).last).toHaveLength(1);
    await rig.wait(3_600_000, 60_000);
    await rig.send('wells/barn/readings', goodPack(6));
    expect((await rig.store.refused(9)).last).toHaveLength(2);
  });

  it('cannot be approved before it was heard', async () => {
    expect(await (await openRig({ approveAll: false })).live.approveNode('barn')).toBe('Unknown node: barn');
  });
});

it('a server that only observes says nothing to nodes', async () => {
  const rig = await openRig({ observe: true });
  await rig.send('wells/barn/hello', helloText());
  await rig.send('wells/barn/readings', goodPack(1));
  await rig.wait(5000);
  expect([...rig.published]).toEqual([]);
});
