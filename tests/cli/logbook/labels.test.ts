/** `stillwell labels` against a whole server: files that print, and what they say. */
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { EXIT, UsageError } from '../../../src/cli/command.ts';
import { fileOf, openShop, type Shop } from '../shop.ts';

async function mill(): Promise<Shop> {
  const shop = await openShop();
  const fields = [
    'switch=40/60',
    'tank.volume=44 gal',
    'pump.motor=1 hp',
    'pump.setDepth=180 ft',
    'where.tank=left & low',
  ];
  await shop.run('card', 'set', 'mill', ...fields, '--new');
  return shop;
}

describe('stillwell labels', () => {
  it('lists their facts', async () => {
    const { run } = await mill();
    const { out } = await run('labels', 'mill', '--only', 'tank');
    expect(out[0]).toMatch(/^mill: .*tank, \d{4}-\d\d-\d\d$/i);
    expect(out.join(' ')).toContain('38 psi');
    const [json = ''] = (await run('labels', 'mill', '--only', 'tank', '--json')).out;
    expect(JSON.parse(json)).toMatchObject({ kind: 'tank', well: 'mill' });
    expect((await run('labels', 'mill', '--only', 'tank', '--units', 'metric')).out.join(' ')).toContain(
      'kPa',
    );
  });

  it('writes a page of the sheet’s own size that fetches nothing', async () => {
    const { run } = await mill();
    const page = fileOf('labels.html');
    const { code, out } = await run('labels', 'mill', page);
    expect(code).toBe(EXIT.ok);
    expect(out[0]).toMatch(/labels\.html: 5 labels, Plain Letter paper, 8 labels to cut out$/);
    const text = readFileSync(page, 'utf8');
    const says = [
      '@page { size: 215.9mm 279.4mm; margin: 0 }',
      'This bar is 50 mm long',
      'Mill · left &amp; low',
    ];
    expect(says.filter((part) => !text.includes(part))).toEqual([]);
    expect(text.match(/class="label-code"/g)).toHaveLength(5);
    expect(text.replaceAll('http://www.w3.org/2000/svg', '').match(/https?:|<script|<link|url\(/)).toBe(null);
    await expect(run('labels', 'mill', page)).rejects.toThrow('it already exists');
  });

  it('writes a sheet an SVG, from the first place that is free', async () => {
    const { run } = await mill();
    const sheet = fileOf('labels.svg');
    const second = sheet.replace('.svg', '-2.svg');
    await run('labels', 'mill', sheet, '--sheet', 'a4-6-stock', '--first', '3');
    expect(readFileSync(sheet, 'utf8')).toMatch(
      /^<svg\s+xmlns="http:\/\/www.w3.org\/2000\/svg"\s+width="210mm"/,
    );
    expect(readFileSync(sheet, 'utf8').match(/<g /g)).toHaveLength(4);
    expect(existsSync(second)).toBe(true);
    expect(readFileSync(second, 'utf8').match(/<g /g)).toHaveLength(1);
  });

  it.each([
    [['mill', 'labels.pdf'], 'its name must end in .html or .svg'],
    [['mill', '--sheet', 'a5'], 'Cannot read --sheet'],
    [['mill', '--only', 'roof'], 'Cannot print a label for roof: the labels of this well are tank'],
    [['mill', '--first', '9'], 'it must be a whole number from 1 to 8'],
    [[], 'well must be given'],
  ])('%j is a mistake that is named', async (args, says) => {
    const { run } = await mill();
    await expect(run('labels', ...args)).rejects.toThrow(says);
    await expect(run('labels', ...args)).rejects.toThrow(UsageError);
  });
});
