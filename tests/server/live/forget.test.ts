/** A node that is no more can be forgotten; what was measured or written down never is. */
import { describe, expect, it } from 'vitest';
import { HOUR, MINUTE, NOON, helloText, openRig, packText, times, type Rig } from './rig.ts';
import { useTestTimers } from './timers.ts';

useTestTimers();

const pack = (node: string): string => packText(node, { fromMs: NOON, seq: 1, current: times(10, 0.1) });
const here = (rig: Rig): unknown => ({
  nodes: [...rig.live.state().nodes.keys()],
  wells: [...rig.live.state().pipelines.keys()],
  kept: rig.store.nodes().map(({ node }) => node),
});

describe('a node that never sent a reading', () => {
  it('is forgotten with its empty well, for good, with what is retained of it', () => {
    const rig = openRig();
    rig.send('wells/typo/hello', helloText());
    rig.send('wells/barn/readings', pack('barn'));
    rig.wait(MINUTE);
    expect(rig.live.forget('typo')).toBeUndefined();
    const left = { nodes: ['barn'], wells: ['barn'], kept: ['barn'] };
    expect(here(rig)).toEqual(left);
    for (const topic of ['kept', 'hello', 'presence'])
      expect(rig.published.get(`wells/typo/${topic}`)).toBe('');
    rig.wait(MINUTE);
    rig.restart('clean');
    expect(here(rig)).toEqual(left);
    rig.send('wells/typo/readings', pack('typo'));
    expect(here(rig)).toMatchObject({ nodes: ['barn', 'typo'], wells: ['barn', 'typo'] });
  });

  it('is forgotten with the alarm that it is silent, which ends', () => {
    const rig = openRig();
    rig.send('wells/typo/hello', helloText());
    rig.wait(3 * HOUR, MINUTE);
    rig.restart('killed', HOUR);
    rig.wait(3 * HOUR, MINUTE);
    expect(rig.store.alarms({ well: 'typo', active: true })).toMatchObject([{ alarm: 'node-silent' }]);
    expect(rig.live.forget('typo')).toBeUndefined();
    expect(rig.store.alarms({ well: 'typo', active: true })).toEqual([]);
    expect(rig.store.alarms({ well: 'typo' })).toMatchObject([{ state: 'normal', clearedMs: rig.nowMs() }]);
    rig.wait(HOUR, MINUTE);
    expect(rig.store.derived('typo')).toEqual({ cycles: [], days: [], baselines: [] });
    expect(rig.log).toEqual([]);
  });

  it('that waits behind an outside broker is forgotten; its hello there is not ours to end', () => {
    const rig = openRig({ approveAll: false });
    rig.send('wells/typo/hello', helloText());
    rig.wait(2000);
    expect(rig.live.forget('typo')).toBeUndefined();
    expect(here(rig)).toEqual({ nodes: [], wells: [], kept: [] });
    expect(rig.published).toEqual(new Map([['wells/typo/kept', '']]));
  });
});

describe('a node stays', () => {
  it.each<[string, string, (rig: Rig) => void]>([
    ['that nobody knows', 'no node of this name is known', () => undefined],
    [
      'that sent readings',
      'it has sent readings, and they are kept',
      (rig) => void rig.send('wells/barn/readings', pack('barn')),
    ],
    [
      'that a card reads from',
      'the card of mill reads from it. Change that card first',
      (rig) => {
        rig.live.applyAct({
          kind: 'card-changed',
          card: { well: 'mill', reads: { current: 'barn:current' } },
        });
        rig.send('wells/barn/hello', helloText());
      },
    ],
    [
      'that has a card of its own',
      'the card of barn reads from it. Change that card first',
      (rig) => void rig.live.applyAct({ kind: 'card-changed', card: { well: 'barn' } }),
    ],
    [
      'of whose well something was done',
      'something was written down of the well barn, and it is kept',
      (rig) => {
        rig.send('wells/barn/hello', helloText());
        rig.live.applyAct({ kind: 'out-of-service', well: 'barn' });
      },
    ],
  ])('%s', (_, why, first) => {
    const rig = openRig();
    first(rig);
    if (!why.startsWith('no node')) rig.send('wells/barn/presence', '"here"');
    const before = here(rig);
    expect(rig.live.forget('barn')).toBe(`Cannot forget barn: ${why}`);
    expect(here(rig)).toEqual(before);
  });
});
