/** A gateway's names make nodes and wells only as far as somebody gave them to it. */
import { describe, expect, it } from 'vitest';
import { MINUTE, NOON, helloText, openRig, type Rig } from './rig.ts';
import { useTestTimers } from './timers.ts';

useTestTimers();

const names = (n: number): string[] => Array.from({ length: n }, (_, i) => `n-${i}`);
const known = async (rig: Rig): Promise<string[]> => (await rig.store.nodes()).map(({ node }) => node);
const wells = (rig: Rig): string[] => [...rig.live.state().pipelines.keys()];
const ignored = async (rig: Rig): Promise<unknown> =>
  (await rig.store.nodes()).find(({ node }) => node === 'gate')?.ignored;

describe('with our own broker', () => {
  it('names that the credential was given make nodes and wells; the others are counted and make nothing', async () => {
    const rig = await openRig();
    const hello = helloText({ speaksFor: ['gate', 'pond', 'pond', ...names(5000 - 3)] });
    await rig.send('wells/gate/hello', hello, { given: ['pond', 'barn'] });
    expect(await known(rig)).toEqual(['gate', 'pond']);
    expect(wells(rig)).toEqual(['gate', 'pond']);
    const last =
      'Node gate speaks for names that are ignored, n-0, n-1, n-2, n-3, n-4 and 4992 more: its credential does not cover them.';
    expect(await ignored(rig)).toEqual({ names: 4997, last, lastMs: NOON });
    expect(await rig.store.refused(9)).toMatchObject({
      counts: [{ reason: 'ignored-names', count: 1 }],
      last: [{ node: 'gate', topic: 'wells/gate/hello', detail: last }],
    });
  });

  it('a client without a credential was given none', async () => {
    const rig = await openRig();
    await rig.send('wells/gate/hello', helloText({ speaksFor: ['pond'] }));
    expect(await known(rig)).toEqual(['gate']);
    expect(await ignored(rig)).toMatchObject({ names: 1 });
  });

  it('every hello counts, one an hour is kept for a look, and the count outlives the server', async () => {
    const rig = await openRig();
    const hello = helloText({ speaksFor: ['pond', 'weir'] });
    for (let i = 0; i < 3; i++) {
      await rig.send('wells/gate/hello', hello, { given: [] });
      await rig.wait(MINUTE);
    }
    expect((await rig.store.refused(9)).counts).toMatchObject([{ reason: 'ignored-names', count: 3 }]);
    expect((await rig.store.refused(9)).last).toHaveLength(1);
    await rig.restart('killed');
    await rig.send('wells/gate/hello', hello, { given: [] });
    expect(await ignored(rig)).toMatchObject({ names: 8 });
  });

  it('the copy that our own broker retained counts nothing again', async () => {
    const rig = await openRig();
    await rig.send('wells/gate/hello', helloText({ speaksFor: ['pond'] }), { retained: true });
    expect(await known(rig)).toEqual(['gate']);
    expect((await rig.store.refused(9)).counts).toEqual([]);
  });
});

describe('behind an outside broker', () => {
  it('names make nothing until their gateway is approved, and are pending approval then themselves', async () => {
    const rig = await openRig({ approveAll: false });
    await rig.send('wells/gate/hello', helloText({ speaksFor: ['pond', 'weir'] }));
    expect(await known(rig)).toEqual(['gate']);
    expect(await ignored(rig)).toMatchObject({
      names: 2,
      last: 'Node gate speaks for names that are ignored, pond, weir: it is pending approval.',
    });
    expect(await rig.live.approveNode('gate')).toBeUndefined();
    expect((await rig.store.nodes()).map(({ node, approved }) => [node, approved])).toEqual([
      ['gate', true],
      ['pond', false],
      ['weir', false],
    ]);
    expect(wells(rig)).toEqual(['gate']);
    await rig.send('wells/gate/hello', helloText({ speaksFor: ['pond', 'barn'] }));
    expect(await known(rig)).toEqual(['barn', 'gate', 'pond', 'weir']);
    expect(await ignored(rig)).toMatchObject({ names: 2 });
  });
});
