/** A node that is no more can be forgotten; what was measured or written down never is. */
import { describe, expect, it } from 'vitest';
import { HOUR, MINUTE, NOON, helloText, openRig, packText, times, type Rig } from './rig.ts';
import { useTestTimers } from './timers.ts';

useTestTimers();

const pack = (node: string): string => packText(node, { fromMs: NOON, seq: 1, current: times(10, 0.1) });
const here = async (rig: Rig): Promise<unknown> => ({
  nodes: [...rig.live.state().nodes.keys()],
  wells: [...rig.live.state().pipelines.keys()],
  kept: (await rig.store.nodes()).map(({ node }) => node),
});

describe('a node that never sent a reading', () => {
  it('is forgotten with its empty well, for good, with what is retained of it', async () => {
    const rig = await openRig();
    await rig.send('wells/typo/hello', helloText());
    await rig.send('wells/barn/readings', pack('barn'));
    await rig.wait(MINUTE);
    expect(await rig.live.forget('typo')).toBeUndefined();
    const left = { nodes: ['barn'], wells: ['barn'], kept: ['barn'] };
    expect(await here(rig)).toEqual(left);
    for (const topic of ['kept', 'hello', 'presence'])
      expect(rig.published.get(`wells/typo/${topic}`)).toBe('');
    await rig.wait(MINUTE);
    await rig.restart('clean');
    expect(await here(rig)).toEqual(left);
    await rig.send('wells/typo/readings', pack('typo'));
    expect(await here(rig)).toMatchObject({ nodes: ['barn', 'typo'], wells: ['barn', 'typo'] });
  });

  it('is forgotten with the alarm that it is silent, which ends', async () => {
    const rig = await openRig();
    await rig.send('wells/typo/hello', helloText());
    await rig.wait(3 * HOUR, MINUTE);
    await rig.restart('killed', HOUR);
    await rig.wait(3 * HOUR, MINUTE);
    expect(await rig.store.alarms({ well: 'typo', active: true })).toMatchObject([{ alarm: 'node-silent' }]);
    expect(await rig.live.forget('typo')).toBeUndefined();
    expect(await rig.store.alarms({ well: 'typo', active: true })).toEqual([]);
    expect(await rig.store.alarms({ well: 'typo' })).toMatchObject([
      { state: 'normal', clearedMs: rig.nowMs() },
    ]);
    await rig.wait(HOUR, MINUTE);
    expect(await rig.store.past('typo')).toMatchObject({ cycles: [], days: [], baselines: [] });
    expect(rig.log).toEqual([]);
  });

  it('that waits behind an outside broker is forgotten; its hello there is not ours to end', async () => {
    const rig = await openRig({ approveAll: false });
    await rig.send('wells/typo/hello', helloText());
    await rig.wait(2000);
    expect(await rig.live.forget('typo')).toBeUndefined();
    expect(await here(rig)).toEqual({ nodes: [], wells: [], kept: [] });
    expect(rig.published).toEqual(new Map([['wells/typo/kept', '']]));
  });
});

describe('a node stays', () => {
  it.each<[string, string, (rig: Rig) => Promise<unknown>]>([
    ['that nobody knows', 'unknown node', () => Promise.resolve()],
    [
      'that sent readings',
      'it has sent readings, and they are kept',
      (rig) => rig.send('wells/barn/readings', pack('barn')),
    ],
    [
      'that a card reads from',
      'the card of mill reads from it. Change that card first',
      async (rig) => {
        await rig.live.applyAct({
          kind: 'card-changed',
          card: { well: 'mill', reads: { current: 'barn:current' } },
        });
        await rig.send('wells/barn/hello', helloText());
      },
    ],
    [
      'that has a card of its own',
      'the card of barn reads from it. Change that card first',
      (rig) => rig.live.applyAct({ kind: 'card-changed', card: { well: 'barn' } }),
    ],
    [
      'of whose well something was done',
      'the well barn has logbook entries, and they are kept',
      async (rig) => {
        await rig.send('wells/barn/hello', helloText());
        await rig.live.applyAct({ kind: 'out-of-service', well: 'barn' });
      },
    ],
  ])('%s', async (_, why, first) => {
    const rig = await openRig();
    await first(rig);
    if (why !== 'unknown node') await rig.send('wells/barn/presence', '"here"');
    const before = await here(rig);
    expect(await rig.live.forget('barn')).toBe(`Cannot forget barn: ${why}`);
    expect(await here(rig)).toEqual(before);
  });
});
