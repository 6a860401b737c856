/** What people do reaches the wells it is for, at its time, and is there after any restart. */
import { describe, expect, it } from 'vitest';
import { HOUR, MINUTE, NOON, openRig, packText, times, type Rig } from './rig.ts';
import { useTestTimers } from './timers.ts';

useTestTimers();

const CARD = {
  well: 'mill',
  control: 'pressure-switch',
  switch: { cutIn: '40 psi', cutOut: '60 psi' },
  reads: { current: 'panel:current', pressure: 'house:pressure' },
};
const change = (card: Record<string, unknown>): Record<string, unknown> => ({ kind: 'card-changed', card });

/** So many minutes of readings of a node, one pack a minute. */
async function minutes(
  rig: Rig,
  n: number,
  packs: Record<string, { current?: number; pressure?: number }>,
): Promise<void> {
  for (let i = 0; i < n; i++) {
    const fromMs = rig.nowMs();
    const seq = Math.round((fromMs - NOON) / MINUTE) + 1;
    await rig.wait(MINUTE, 10_000);
    for (const [node, { current, pressure }] of Object.entries(packs)) {
      const readings = {
        ...(current !== undefined && { current: times(12, current) }),
        ...(pressure !== undefined && { pressure: times(12, pressure) }),
      };
      await rig.send(`wells/${node}/readings`, packText(node, { fromMs, everyS: 5, seq, ...readings }));
    }
  }
}

/** The last pressure and current that the well's engine saw. */
function seen(rig: Rig, well: string): (number | undefined)[] {
  const { channels } = rig.live.state().pipelines.get(well)!.state;
  return [3, 0].map((code) => channels.find((channel) => channel.code === code)?.value);
}

describe('a card', () => {
  it('changes where a well reads from, from its time on', async () => {
    const rig = await openRig();
    await rig.live.applyAct(change(CARD));
    await minutes(rig, 3, { panel: { current: 7 }, house: { pressure: 300 }, attic: { pressure: 350 } });
    expect(seen(rig, 'mill')).toEqual([300_000, 7]);
    await rig.live.applyAct(change({ ...CARD, reads: { ...CARD.reads, pressure: 'attic:pressure' } }));
    await minutes(rig, 3, { panel: { current: 7 }, house: { pressure: 301 }, attic: { pressure: 351 } });
    expect(seen(rig, 'mill')).toEqual([351_000, 7]);

    // A late pack of before is read as the card of its time says, and the same after a restart.
    await rig.send(
      'wells/attic/readings',
      packText('attic', { fromMs: NOON + 500, everyS: 5, boot: 3, seq: 1, pressure: times(3, 1) }),
    );
    await rig.wait(2 * MINUTE);
    expect(await rig.store.rerunMarks()).toEqual([]);
    expect(seen(rig, 'mill')).toEqual([351_000, 7]);
    await rig.restart('killed');
    expect(seen(rig, 'mill')).toEqual([351_000, 7]);
  });

  it('takes over a node that was a well of its own, over a restart too', async () => {
    const rig = await openRig();
    await minutes(rig, 3, { panel: { current: 7 } });
    await rig.live.applyAct(change(CARD));
    await minutes(rig, 3, { panel: { current: 6 } });
    const passed = (): unknown[] => [seen(rig, 'panel')[1], seen(rig, 'mill')[1]];
    expect(passed()).toEqual([7, 6]);
    await rig.restart('killed');
    await rig.wait(MINUTE);
    expect(passed()).toEqual([7, 6]);
  });

  it('with a fault is refused with the key, and changes nothing', async () => {
    const rig = await openRig();
    expect(
      await rig.live.applyAct(change({ ...CARD, switch: { cutIn: '60 psi', cutOut: '40 psi' } })),
    ).toMatchObject({
      problem: expect.stringContaining('switch') as string,
    });
    expect(await rig.store.acts({ fromMs: 0 })).toEqual([]);
    expect(rig.live.state().pipelines.size).toBe(0);
  });
});

describe('an act', () => {
  it('for a well that there is not is refused', async () => {
    expect(await (await openRig()).live.applyAct({ kind: 'visit-opened', well: 'mill' })).toEqual({
      problem: 'Cannot do visit-opened: unknown well mill',
    });
  });

  it('reaches its well though late packs are due to run it again in the same turn', async () => {
    const rig = await openRig();
    await rig.live.applyAct(change(CARD));
    await minutes(rig, 5, { panel: { current: 7 } });
    await rig.send(
      'wells/house/readings',
      packText('house', { fromMs: NOON, everyS: 5, seq: 1, pressure: times(12, 300) }),
    );
    await rig.live.applyAct({ kind: 'visit-opened', well: 'mill' });
    await minutes(rig, 2, { panel: { current: 7 } });
    expect(rig.live.state().pipelines.get('mill')!.state.visitOpen).toBe(true);
  });

  it('done at a moment that its well has passed comes right after it, and is met again by a later run', async () => {
    const rig = await openRig();
    await rig.live.applyAct(change(CARD));
    await minutes(rig, 2, { panel: { current: 7 } });
    // Nobody is waited for any more: the well has been passed to this very moment.
    await rig.wait(HOUR, MINUTE);
    const done = await rig.live.applyAct({ kind: 'visit-opened', well: 'mill' });
    expect(done).toEqual({ done: true, atMs: rig.live.state().pipelines.get('mill')!.advancedToMs + 1 });
    await rig.live.close();
    await rig.restart('killed');
    await rig.wait(2 * MINUTE);
    expect(rig.live.state().pipelines.get('mill')!.state.visitOpen).toBe(true);
  });

  it('kept before its rule was made, a calibration that no reading can be corrected by, stops no well; a right one counts', async () => {
    const rig = await openRig();
    await rig.live.applyAct(change(CARD));
    await minutes(rig, 2, { panel: { current: 7 } });
    const slip = {
      kind: 'calibrated',
      node: 'panel',
      channel: 'current',
      points: [
        [0, 0],
        [5e-324, 1],
      ],
    };
    expect(await rig.live.applyAct(slip)).toEqual({
      problem:
        'Cannot read act: points must make a line with a gain from 0.01 to 100 (true = gain x read + offset): Infinity',
    });
    const row = { id: 'slip', atMs: rig.nowMs(), node: 'panel', kind: 'calibrated', body: slip };
    await rig.store.commit([{ change: 'act', row }]);
    await rig.restart('killed');
    await minutes(rig, 2, { panel: { current: 6 } });
    expect(rig.live.healthProblems()).toEqual([]);
    expect(seen(rig, 'mill')[1]).toBe(6);
    expect(rig.log[0]).toMatch(
      'Cannot use the act from 2026-03-02T12:02:00.000Z: Cannot read act: points must',
    );

    const right = [
      [0, 0],
      [6, 6.6],
    ];
    expect(await rig.live.applyAct({ ...slip, points: right })).toMatchObject({ done: true });
    await minutes(rig, 2, { panel: { current: 6 } });
    expect(seen(rig, 'mill')[1]).toBeCloseTo(6.6, 9);
    await rig.restart('killed');
    expect(seen(rig, 'mill')[1]).toBeCloseTo(6.6, 9);
  });

  it('that says an alarm was seen says by whom', async () => {
    const rig = await openRig();
    await rig.live.applyAct(change(CARD));
    await minutes(rig, 2, { panel: { current: 7.9 }, house: { pressure: 330 } });
    await minutes(rig, 3, { panel: { current: 0.05 }, house: { pressure: 330 } });
    await minutes(rig, 5, { panel: { current: 0.05 }, house: { pressure: 3 } });
    const [raised] = await rig.alarms();
    expect(raised).toMatchObject({ alarm: 'no-start', state: 'unacknowledged' });
    await rig.live.applyAct(
      { kind: 'acknowledged', well: 'mill', pump: 'p1', alarm: 'no-start' },
      'Ada Quill',
    );
    await minutes(rig, 2, { panel: { current: 0.05 }, house: { pressure: 3 } });
    const seenBy = { state: 'acknowledged', acknowledgedBy: 'Ada Quill', acknowledgedMs: NOON + 10 * MINUTE };
    expect(await rig.alarms()).toMatchObject([seenBy]);
    expect(await rig.store.acts({ fromMs: NOON + 1 })).toMatchObject([
      { kind: 'acknowledged', by: 'Ada Quill' },
    ]);
    await rig.restart('killed');
    expect(await rig.alarms()).toMatchObject([seenBy]);
    await minutes(rig, 2, { panel: { current: 0.05 }, house: { pressure: 3 } });
    expect(await rig.alarms()).toMatchObject([seenBy]);
  });

  it('that shelves an alarm is seen in its row until the shelf is over', async () => {
    const rig = await openRig();
    await rig.live.applyAct(change(CARD));
    await minutes(rig, 2, { panel: { current: 7.9 }, house: { pressure: 330 } });
    await minutes(rig, 3, { panel: { current: 0.05 }, house: { pressure: 330 } });
    await minutes(rig, 5, { panel: { current: 0.05 }, house: { pressure: 3 } });
    const untilMs = NOON + 30 * MINUTE;
    const until = new Date(untilMs).toISOString();
    await rig.live.applyAct({ kind: 'shelved', well: 'mill', pump: 'p1', alarm: 'no-start', until });
    await minutes(rig, 2, { panel: { current: 0.05 }, house: { pressure: 3 } });
    expect(await rig.alarms()).toMatchObject([{ state: 'shelved', shelvedUntilMs: untilMs }]);
    await minutes(rig, 25, { panel: { current: 0.05 }, house: { pressure: 3 } });
    const [row] = await rig.alarms('no-start');
    expect([row?.state, row?.shelvedUntilMs]).toEqual(['unacknowledged', undefined]);
  });
});
