/**
 * Acts that came while another was committed are done together, each checked against what is kept.
 */
import { describe, expect, it } from 'vitest';
import { openRig, type Rig } from './rig.ts';
import { useTestTimers } from './timers.ts';

useTestTimers();

const card = (well: string, site?: string): Record<string, unknown> => ({
  kind: 'card-changed',
  card: { well, ...(site !== undefined && { site }) },
});
const commits = ({ live }: Rig): number => live.state().counts.commits;

describe('acts of many wells at once', () => {
  it('are kept in few commits, and each is answered', async () => {
    const rig = await openRig();
    const before = commits(rig);
    const names = Array.from({ length: 100 }, (_, i) => `well-${i}`);
    const results = await Promise.all(names.map((name) => rig.live.applyAct(card(name), 'Ines')));
    expect(results).toEqual(names.map(() => ({ done: true, atMs: rig.nowMs() })));
    // 64 in the first turn, the others in the next.
    expect(commits(rig) - before).toBe(2);
    await rig.restart('killed');
    expect([...rig.live.state().cards.keys()].toSorted()).toEqual(names.toSorted());
  });

  it('one that is refused, one that cannot be read and one whose check fails leave the others', async () => {
    const rig = await openRig();
    const disk = new Error('no such table');
    const results = await Promise.allSettled([
      rig.live.applyAct(card('mill')),
      rig.live.applyAct(card('barn'), 'Ines', async () => Promise.resolve('somebody else was first')),
      rig.live.applyAct({ kind: 'card-changed', card: { well: 'no such/name' } }),
      rig.live.applyAct(card('creek'), 'Ines', async () => Promise.reject(disk)),
      rig.live.applyAct(card('hill'), 'Ines', async () => Promise.resolve(undefined)),
    ]);
    expect(results).toMatchObject([
      { value: { done: true } },
      { value: { problem: 'somebody else was first' } },
      { value: { problem: expect.stringContaining('Cannot') } },
      { status: 'rejected', reason: disk },
      { value: { done: true } },
    ]);
    expect([...rig.live.state().cards.keys()].toSorted()).toEqual(['hill', 'mill']);
  });

  it('two of one well are never in one commit: the second is checked against the first', async () => {
    const rig = await openRig();
    const seen: (string | undefined)[] = [];
    const check = async (): Promise<undefined> => {
      seen.push((await rig.store.acts({ well: 'mill', fromMs: 0 })).map(({ kind }) => kind).join());
      return undefined;
    };
    const before = commits(rig);
    await Promise.all([
      rig.live.applyAct(card('mill', 'north'), 'Ines', check),
      rig.live.applyAct(card('mill', 'south'), 'Ines', check),
      rig.live.applyAct(card('barn')),
    ]);
    expect(seen).toEqual(['', 'card-changed']);
    expect(commits(rig) - before).toBe(2);
    expect(rig.live.state().cards.get('mill')?.site).toBe('south');
  });

  it('where the disk is full, nobody is told that his is kept', async () => {
    const rig = await openRig();
    rig.disk.full = true;
    const results = await Promise.all(['mill', 'barn'].map((name) => rig.live.applyAct(card(name))));
    for (const result of results) expect(result).toHaveProperty('problem');
    rig.disk.full = false;
    await rig.wait(30_000);
    expect([...rig.live.state().cards.keys()]).toEqual([]);
  });

  it('a name that is none, however odd, holds up nobody', async () => {
    const rig = await openRig();
    let deep: unknown = 'mill';
    for (let n = 0; n < 10_000; n += 1) deep = [deep];
    const odd = rig.live.applyAct({ kind: 'card-changed', card: { well: deep } });
    expect(await odd).toHaveProperty('problem');
    expect(await rig.live.applyAct(card('mill'))).toHaveProperty('done');
  });

  it('a fault of our own in one leaves the others', async () => {
    const rig = await openRig();
    const faulty = Object.defineProperty({ well: 'creek' }, 'kind', {
      enumerable: true,
      get: () => {
        throw new TypeError('a fault of our own');
      },
    });
    const results = await Promise.all([
      rig.live.applyAct(card('mill')),
      rig.live.applyAct(faulty),
      rig.live.applyAct(card('barn')),
    ]);
    expect(results).toMatchObject([{ done: true }, { problem: expect.any(String) }, { done: true }]);
    await rig.restart('killed');
    expect([...rig.live.state().cards.keys()].toSorted()).toEqual(['barn', 'mill']);
  });
});
