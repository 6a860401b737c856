/** At the ceiling what is known goes on, what is new is refused, and the server says so. */
import { expect, it } from 'vitest';
import { NOON, helloText, openRig, packText, times } from './rig.ts';
import { useTestTimers } from './timers.ts';

useTestTimers();

const pack = (node: string, seq: number): string =>
  packText(node, { fromMs: NOON, seq, current: times(10, 0.1) });
const card = (well: string, node = well): Record<string, unknown> => ({
  kind: 'card-changed',
  card: { well, reads: { current: `${node}:current` } },
});

it('a node beyond the ceiling is refused and makes nothing, however it comes; those that are known go on', async () => {
  const rig = await openRig({ most: { nodes: 2, wells: 9 } });
  await rig.send('wells/a/readings', pack('a', 1));
  expect(rig.live.healthProblems()).toEqual([]);
  await rig.send('wells/b/hello', helloText());
  await rig.send('wells/c/readings', pack('c', 1));
  await rig.send('wells/c/hello', helloText());
  await rig.send('wells/c/presence', '"here"');
  await rig.send('wells/a/readings', pack('a', 2));
  await rig.send('wells/b/hello', helloText({ speaksFor: ['d'] }), { given: ['d'] });
  await rig.wait(1000);
  expect([...rig.live.state().nodes.keys()]).toEqual(['a', 'b']);
  expect([...rig.live.state().pipelines.keys()]).toEqual(['a', 'b']);
  expect(rig.published.get('wells/a/kept')).toBe('{"boot":17,"seq":2}');
  const why = 'one server takes 2 nodes at most, and 2 are known.';
  expect(await rig.store.refused(9)).toMatchObject({
    counts: [
      { reason: 'too-many-nodes', count: 3 },
      { reason: 'ignored-names', count: 1 },
    ],
    last: [
      { detail: `Node b speaks for names that are ignored, d: ${why}` },
      { detail: `Node c is not accepted: ${why}` },
    ],
  });
  expect(rig.live.healthProblems()).toEqual([
    'Cannot add a node: one server takes at most 2, and 2 are known. Remove those that are gone: stillwell node forget NAME',
  ]);
  await rig.restart('killed');
  expect([...rig.live.state().nodes.keys()]).toEqual(['a', 'b']);

  expect(await rig.live.forget('b')).toBeUndefined();
  expect(rig.live.healthProblems()).toEqual([]);
  await rig.send('wells/c/hello', helloText());
  expect([...rig.live.state().nodes.keys()]).toEqual(['a', 'c']);
});

it('a well beyond the ceiling is refused, by a card, a node, letting a node in or a packet', async () => {
  const rig = await openRig({ approveAll: false, most: { nodes: 9, wells: 1 } });
  await rig.live.applyAct(card('mill', 'a'));
  const no = 'one server watches 1 wells at most, and 1 are known';
  expect(await rig.live.applyAct(card('pond'))).toEqual({ problem: `Cannot add a well: ${no}` });
  expect(await rig.live.applyAct(card('mill', 'b'))).toMatchObject({ done: true });
  await rig.send('wells/c/hello', helloText());
  expect(await rig.live.approveNode('c')).toBe(`Cannot approve c: ${no}`);
  const row = { well: 'pond', kind: 'well', key: 'pond', atMs: 0, row: {} } as const;
  expect(await rig.live.importChanges(() => Promise.resolve([{ change: 'imported', row }]))).toBe(
    `Cannot add a well: ${no}`,
  );
  expect(rig.live.healthProblems()).toEqual([
    expect.stringContaining('Cannot add a well: one server monitors at most 1'),
  ]);
  expect([...rig.live.state().pipelines.keys()]).toEqual(['mill']);
  // It is read from by a card, so it makes no well.
  await rig.send('wells/b/hello', helloText());
  expect(await rig.live.approveNode('b')).toBeUndefined();

  const own = await openRig({ most: { nodes: 9, wells: 1 } });
  await own.send('wells/a/hello', helloText());
  await own.send('wells/b/hello', helloText());
  expect([...own.live.state().nodes.keys()]).toEqual(['a']);
});
