/**
 * Late packs run a well again from what was kept: rarely, and so that nobody hears the same twice,
 * and hears of what was wrong.
 */
import { describe, expect, it } from 'vitest';
import { helloText, HOUR, MINUTE, NOON, openRig, packText, times, type Rig } from './rig.ts';
import { useTestTimers } from './timers.ts';

useTestTimers();

const CARD = {
  well: 'mill',
  control: 'pressure-switch',
  switch: { cutIn: '40 psi', cutOut: '60 psi' },
  reads: { current: 'panel:current', pressure: 'house:pressure' },
};

/**
 * A minute of each node, its last reading at the minute's end and on its way at once; the house may
 * send other readings, or none.
 */
async function minuteOf(rig: Rig, seq: number, house: readonly number[] | undefined): Promise<void> {
  const fromMs = rig.nowMs() + 10_000;
  await rig.wait(MINUTE);
  await rig.send(
    'wells/panel/readings',
    packText('panel', { fromMs, everyS: 10, seq, current: times(6, 0.05) }),
  );
  if (house)
    await rig.send('wells/house/readings', packText('house', { fromMs, everyS: 10, seq, pressure: house }));
  else await rig.send('wells/house/presence', '"here"');
}

async function begun(): Promise<Rig> {
  const rig = await openRig();
  await rig.live.applyAct({ kind: 'card-changed', card: CARD });
  // A well that was read by hand is known to have run.
  await rig.live.applyAct({ kind: 'pinned', well: 'mill', amps: '7.9 A' });
  await rig.send('wells/panel/hello', helloText());
  await rig.send('wells/house/hello', helloText());
  return rig;
}

describe('late packs', () => {
  it('by the hundred run their well again at most once a minute', async () => {
    const rig = await begun();
    for (let seq = 1; seq <= 60; seq++) await minuteOf(rig, seq, undefined);
    const before = rig.live.state().counts.reruns;
    // A second's worth of backlog, sixty packs, in the time of three minutes.
    for (let seq = 1; seq <= 60; seq++) {
      const fromMs = NOON + (seq - 1) * MINUTE + 10_000;
      await rig.send(
        'wells/house/readings',
        packText('house', { fromMs, everyS: 10, seq, pressure: times(6, 330) }),
      );
      await rig.wait(3000);
    }
    await rig.wait(MINUTE);
    const runs = rig.live.state().counts.reruns - before;
    expect(runs).toBeGreaterThan(0);
    expect(runs).toBeLessThanOrEqual(5);
    expect(await rig.store.rerunMarks()).toEqual([]);
    expect(
      rig.live
        .state()
        .pipelines.get('mill')!
        .state.channels.find((channel) => channel.code === 3)?.value,
    ).toBe(330_000);
  });

  it('keep the mark of where to run again from over a crash', async () => {
    const rig = await begun();
    for (let seq = 1; seq <= 20; seq++) await minuteOf(rig, seq, undefined);
    await rig.send(
      'wells/house/readings',
      packText('house', { fromMs: NOON, everyS: 10, seq: 1, pressure: times(6, 330) }),
    );
    expect(await rig.store.rerunMarks()).toEqual([{ well: 'mill', fromMs: NOON }]);
    await rig.restart('killed');
    expect(await rig.store.rerunMarks()).toEqual([]);
    expect(rig.live.state().pipelines.get('mill')!.rerunFromMs).toBeUndefined();
  });

  it('that show an alarm to have been wrong withdraw it, and whoever was told hears so', async () => {
    const rig = await begun();
    for (let seq = 1; seq <= 5; seq++) await minuteOf(rig, seq, times(6, 330));
    // One reading of each minute in six came; the other five come late and say that there was
    // water.
    for (let seq = 6; seq <= 10; seq++) await minuteOf(rig, 2 * seq, [3]);
    expect(await rig.alarms('no-start')).toMatchObject([{ well: 'mill', state: 'unacknowledged' }]);
    expect(await rig.notices()).toMatchObject([{ what: 'raised' }]);
    for (let seq = 6; seq <= 10; seq++) {
      const fromMs = NOON + (seq - 1) * MINUTE + 20_000;
      await rig.send(
        'wells/house/readings',
        packText('house', { fromMs, everyS: 10, seq: 2 * seq - 1, pressure: times(5, 330) }),
      );
    }
    await rig.wait(2 * MINUTE);
    const [row] = await rig.alarms('no-start');
    expect(row?.withdrawnMs).toBeGreaterThan(NOON);
    expect(row?.state).toBe('normal');
    expect((await rig.notices()).map((notice) => notice.what)).toEqual(['raised', 'withdrawn']);
  });

  it('that show two told alarms to be one let the one that stands go on', async () => {
    const rig = await begun();
    for (let seq = 1; seq <= 5; seq++) await minuteOf(rig, seq, times(6, 330));
    for (let seq = 6; seq <= 10; seq++) await minuteOf(rig, 2 * seq, times(6, 3));
    // One reading of each minute in six says that there is water; the other five come late and say
    // that there was none.
    for (let seq = 11; seq <= 80; seq++) await minuteOf(rig, 2 * seq, [330]);
    expect((await rig.notices()).map((notice) => notice.what)).toEqual(['raised', 'cleared']);
    for (let seq = 11; seq <= 80; seq++) {
      const fromMs = NOON + (seq - 1) * MINUTE + 10_000;
      await rig.send(
        'wells/house/readings',
        packText('house', { fromMs, everyS: 10, seq: 2 * seq - 1, pressure: times(5, 3) }),
      );
    }
    await rig.wait(2 * MINUTE);
    // By then it had been found again of the last minutes alone: that one goes on, and nobody hears
    // of it twice.
    const reported = ['raised', 'cleared', 'raised'];
    expect((await rig.notices()).map((notice) => notice.what)).toEqual(reported);
    for (let seq = 84; seq <= 154; seq++) await minuteOf(rig, 2 * seq, times(6, 330));
    expect((await rig.notices()).map((notice) => notice.what)).toEqual([...reported, 'cleared']);
    expect((await rig.alarms('no-start')).map((row) => row.clearedMs === undefined)).toEqual([false, false]);
  });

  it('that change nothing for people tell nobody anything', async () => {
    const rig = await begun();
    for (let seq = 1; seq <= 5; seq++) await minuteOf(rig, seq, times(6, 330));
    for (let seq = 6; seq <= 10; seq++) await minuteOf(rig, 2 * seq, times(3, 3));
    expect((await rig.notices()).length).toBe(1);
    const fromMs = NOON + 5 * MINUTE + 40_000;
    await rig.send(
      'wells/house/readings',
      packText('house', { fromMs, everyS: 10, seq: 11, pressure: times(3, 3) }),
    );
    await rig.wait(2 * MINUTE);
    expect(await rig.alarms('no-start')).toMatchObject([{ state: 'unacknowledged' }]);
    expect((await rig.notices()).length).toBe(1);
  });
});

describe('a start', () => {
  it('after a clean stop at the very moment of an alarm neither withdraws it nor tells it again', async () => {
    const rig = await begun();
    for (let seq = 1; seq <= 5; seq++) await minuteOf(rig, seq, times(6, 330));
    for (let seq = 6; seq <= 30; seq++) {
      await minuteOf(rig, seq, times(6, 3));
      await rig.restart('clean');
    }
    expect(await rig.alarms('no-start')).toMatchObject([{ state: 'unacknowledged' }]);
    expect((await rig.alarms('no-start'))[0]?.withdrawnMs).toBeUndefined();
    expect((await rig.notices()).length).toBe(1);
  });

  it('at midnight leaves the day that has just been said', async () => {
    const rig = await openRig({}, NOON + 11 * HOUR + 55 * MINUTE);
    for (let seq = 1; seq <= 20; seq++) {
      const fromMs = rig.nowMs() + 10_000;
      await rig.wait(MINUTE, 10_000);
      await rig.send(
        'wells/barn/readings',
        packText('barn', { fromMs, everyS: 10, seq, current: times(6, 0.05) }),
      );
      await rig.wait(31_000);
      await rig.restart(seq % 2 === 0 ? 'clean' : 'killed', MINUTE - 31_000);
      await rig.wait(2 * MINUTE);
    }
    expect(await rig.store.days('barn', 0, Number.MAX_SAFE_INTEGER)).toMatchObject([{ date: '2026-03-02' }]);
  });
});
