/**
 * Readings with a guide and visits with their before/after report, in a real browser, against the
 * invented farm.
 */
import type { CycleRow } from '../../src/core/cycles/cycle-row.ts';
import { entriesOf } from '../../shared/entries/entry.ts';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openPageChecker, type PageChecker } from './support/page-check.ts';

let looker: PageChecker;
beforeAll(async () => {
  looker = await openPageChecker();
});
afterAll(async () => await looker.close());

/** A run of 95 s that begins after this time. */
function runAfter(atMs: number): CycleRow {
  const [startedMs, stoppedMs] = [atMs + 5_000, atMs + 100_000];
  return {
    startedMs,
    stoppedMs,
    event: {
      event: 'cycle',
      well: 'house-hill',
      pump: 'p1',
      started: new Date(startedMs).toISOString(),
      stopped: new Date(stoppedMs).toISOString(),
      ranS: 95,
      amps: 7.92,
      cutInKpa: 275.8,
      cutOutKpa: 413.7,
      flags: [],
    },
  };
}

test('a reference reading is followed from the tap to the stop, pinned, and stands over the years', async (context) => {
  await looker.check(context, 390, async ({ page, web }) => {
    await page.goto(`${web.url}#/well/house-hill/readings`);
    await page.getByRole('button', { name: 'Start' }).click();
    await page.getByText('Open a tap and let the water run until the pump starts.').waitFor();
    await page.getByText('on the clamp').waitFor();
    web.farm.runs.push(runAfter(web.farm.clock.nowMs));
    await page.getByText('The run took 1 min 35 s.').waitFor();
    expect(await page.getByRole('checkbox', { name: /^Fill time/ }).isChecked()).toBe(false);
    await page.getByRole('checkbox', { name: /^Pin these/ }).check();
    await page.getByLabel('Your name').first().fill('Ines');
    await page.getByRole('button', { name: 'Save readings' }).click();
    await page.getByText('Saved. The reading is in the list below.').waitFor();
    await page.getByText(/Pinned 7.92 A on .* by Ines\. Now 7.9 A \(last \d+ runs\): /).waitFor();
    await page.getByText(/Pinned 40 psi on/).waitFor();
    expect(web.farm.acts).toEqual([
      {
        act: {
          kind: 'pinned',
          well: 'house-hill',
          pump: 'p1',
          amps: '7.92 A',
          cutIn: '275.8 kPa',
          cutOut: '413.7 kPa',
        },
        by: 'Ines',
      },
    ]);
    const kept = entriesOf(await web.farm.deps.logbook.entries('house-hill'), 'reading');
    expect(kept.map(({ body }) => [body.what, body.value, body.pinned, body.from])).toEqual([
      ['amps', '7.92 A', true, 'sensors'],
      ['cut-in', '275.8 kPa', true, 'sensors'],
      ['cut-out', '413.7 kPa', true, 'sensors'],
    ]);
  });
});

test('a flow by bucket and watch is reckoned, and what is refused stays as it was typed', async (context) => {
  await looker.check(
    context,
    390,
    async ({ page, web }) => {
      await page.goto(`${web.url}#/well/house-hill/readings`);
      await page.getByText('Enter a reading').click();
      const form = page.locator('details', { hasText: 'Enter a reading' });
      await form.getByLabel('Value with unit').fill('41');
      await form.getByLabel('Note').fill('steel tape');
      await form.getByRole('button', { name: 'Save' }).click();
      // The server's answer is a refusal, which the browser writes to its console: asked for here,
      // so it is no fault.
      await form.getByText('value must be a length in m, ft, in or mm').waitFor();
      expect(await form.getByLabel('Note').inputValue()).toBe('steel tape');
      await form.locator('select').first().selectOption('Flow');
      await form.getByLabel('Volume in the bucket').fill('5 gal');
      await form.getByLabel('Time to fill it').fill('48 s');
      await form.getByText('Flow: 6.25 gpm.').waitFor();
      await form.getByRole('button', { name: 'Save' }).click();
      await page.getByText('Saved. The reading').waitFor();
      await page.getByRole('heading', { level: 3, name: 'Flow' }).waitFor();
      const [entry] = await web.farm.deps.logbook.entries('house-hill');
      expect(entry?.body).toMatchObject({
        what: 'flow',
        bucket: { volume: '5 gal', time: '48 s' },
        text: 'steel tape',
      });
    },
    ['409'],
  );
});

test('a visit is opened, its work is written down, and its close leads to the proof', async (context) => {
  await looker.check(context, 390, async ({ page, web }) => {
    await page.goto(`${web.url}#/well/north-paddock/visit`);
    await page.getByText('For: Tank has lost air (Pump starts too often)').waitFor();
    await page.getByLabel('Your name').fill('Tom');
    await page.getByRole('button', { name: 'Open a visit' }).click();
    await page.getByRole('heading', { name: 'A visit is open' }).waitFor();
    await page.getByLabel('Work done').fill('Tank changed');
    await page.getByLabel('Parts installed').fill('tank 44 gal\nnipple');
    await page.getByLabel('tank', { exact: true }).check();
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByText('Parts: tank 44 gal; nipple').waitFor();
    // Work on the tank offers the new normal by itself.
    expect(await page.getByRole('checkbox', { name: /^Learn normal values again/ }).isChecked()).toBe(true);
    await page.getByRole('button', { name: 'Close the visit' }).click();
    await page.getByRole('heading', { name: 'Before and after, North paddock' }).waitFor();
    await page.getByText('Not known yet: 0 of 10 runs since the visit was closed.').first().waitFor();
    await page.getByText('Tank changed').waitFor();
    expect(web.farm.acts).toEqual([
      { act: { kind: 'visit-opened', well: 'north-paddock' }, by: 'Tom' },
      { act: { kind: 'visit-closed', well: 'north-paddock', newBaseline: true }, by: 'Tom' },
    ]);
  });
});

test('the proof of a month ago draws both sides and prints as one page', async (context) => {
  await looker.check(context, 1280, async ({ page, web }) => {
    await page.goto(`${web.url}#/well/house-hill/visit`);
    await page.getByRole('button', { name: 'Before and after' }).click();
    await page.getByRole('img', { name: /^Running amps/ }).waitFor();
    await page.getByText(/7\.9\d*\sA before, 7\.9\d*\sA after: the difference is within scatter/).waitFor();
    const pdf = await page.pdf({ format: 'Letter' });
    expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
  });
});
