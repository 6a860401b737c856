/** `stillwell card` against a whole server: one card, and a firm's list of wells. */
import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { EXIT, UsageError } from '../../../src/cli/command.ts';
import { serverApi } from '../../../src/cli/server-api.ts';
import type { TestServer } from '../../support/test-server.ts';
import { runCli, type Ran } from '../command-line.ts';
import { fileOf as file, openShop } from '../shop.ts';

/** A server of its own and the command against it. */
async function shop(): Promise<{ station: TestServer; card: (...args: string[]) => Promise<Ran> }> {
  const { station, run } = await openShop();
  return { station, card: (...args) => run('card', ...args) };
}

const cards = async (station: TestServer): Promise<number> =>
  (await station.store.acts({ fromMs: 0 })).filter(({ kind }) => kind === 'card-changed').length;

describe('card set, show, history and list', () => {
  it('a new well, changed, looked at, with who did what', async () => {
    const { card } = await shop();
    expect((await card('list')).out[0]).toContain('No wells yet');
    await expect(card('set', 'mill', 'switch=40/60')).rejects.toThrow('To create it, add --new');
    const made = await card(
      'set',
      'mill',
      'switch=40/60',
      'pump.motor=1 hp',
      'tank.precharge=45 psi',
      '--new',
    );
    expect(made.out[0]).toBe('Saved the card of mill.');
    expect(made.out[1]).toContain('Is this right? tank.precharge: The precharge, 45 psi, is over the cut-in');
    await expect(card('set', 'mill', 'owner=A', '--new')).rejects.toThrow('it already has a card');
    expect(
      (await card('set', 'mill', 'tank.precharge=', 'treatment=softener; lamp', '--by', 'Tom')).code,
    ).toBe(EXIT.ok);
    expect((await card('set', 'mill', 'treatment=softener; lamp')).out).toEqual([
      'Nothing to change: the card of mill already has these values.',
    ]);
    const shown = (await card('show', 'mill')).out;
    expect(shown[0]).toMatch(/^mill, changed \d{4}-.* UTC by Tom$/);
    expect(shown.slice(1)).toEqual([
      '  pump.motor     1 hp',
      '  switch.points  40/60',
      '  treatment      softener; lamp',
    ]);
    expect((await card('history', 'mill')).out.map((line) => line.replace(/^.* UTC /, ''))).toEqual([
      ' Tom',
      '  Tank: precharge: 45 psi -> removed',
      '  Treatment: what treats the water: softener; lamp',
      ' ines, the first card',
      '  Pump: motor power: 1 hp',
      '  Switch and relief valve: pressure switch: 40/60',
      '  Tank: precharge: 45 psi',
    ]);
    expect((await card('list')).out[0]).toMatch(/^mill {2}card of \d{4}-\d\d-\d\d {2}/);
  });

  it.each([
    [
      ['set', 'mill', 'pump.motor=1 psi', '--new'],
      'Nothing was changed. pump.motor must be a power in W, hp or kW: "1 psi"',
    ],
    [['set', 'mill', 'motor=1 hp'], 'Cannot read "motor=1 hp": it must be a field of the card'],
    [['set', 'mill', 'well=barn'], 'Cannot read "well=barn"'],
    [['set', 'mill'], 'Cannot run stillwell card set: field=value must be given'],
    [['show'], 'Cannot run stillwell card show: well must be given. Usage: stillwell card show <well>'],
    [['show', 'a', 'b'], 'Cannot read "b": too many arguments. Usage: stillwell card show <well>'],
    [['turn', 'a'], 'Cannot run "stillwell card turn": it must be one of list, show'],
    [['import', 'no-such.csv'], 'Cannot read no-such.csv: there is no such file or folder'],
    [['import', 'cards.txt'], 'Cannot read cards.txt'],
  ])('%j is refused in one line', async (args, says) => {
    const { card } = await shop();
    await expect(card(...args)).rejects.toThrow(UsageError);
    await expect(card(...args)).rejects.toThrow(says);
  });

  it('a server that is not there is said to be so', async () => {
    await expect(serverApi('http://127.0.0.1:9').get('wells')).rejects.toThrow(
      'is the server running there?',
    );
    expect(() => serverApi('mill')).toThrow(UsageError);
  });
});

/** Two hundred wells of an invented firm, some of them odd, as a spreadsheet writes them. */
function firmTable(wells: number): string {
  const rows = Array.from({ length: wells }, (_, at) => {
    const [motor, volts] = at % 3 === 0 ? ['3/4 hp', '230 V'] : ['1-1/2 hp', '230 V'];
    return `well-${at + 1},"Alder, R. ${at}",${motor},${volts},${at % 2 === 0 ? '40/60' : '30/50'},"6"" steel",${100 + at} ft`;
  });
  return `\uFEFFwell,owner,pump.motor,pump.volts,switch,hole.casingMaterial,hole.depth\r\n${rows.join('\r\n')}\r\n`;
}

describe('card import and export', () => {
  it('two hundred wells come in, go out as they were, and come into another server', async () => {
    const { station, card } = await shop();
    const table = file('wells.csv', firmTable(200));
    const dry = await card('import', table, '--dry-run');
    expect(dry.out.at(-1)).toBe(
      '200 cards would be imported (200 for new wells), 0 unchanged. Nothing was changed.',
    );
    expect(await cards(station)).toBe(0);
    expect((await card('import', table)).out).toEqual([
      '200 cards imported (200 for new wells), 0 unchanged.',
    ]);
    expect((await card('import', table)).out).toEqual(['0 cards imported (0 for new wells), 200 unchanged.']);
    expect(await cards(station)).toBe(200);

    const [csv, json] = [file('out.csv'), file('out.json')];
    await card('export', csv);
    await card('export', json);
    const other = await shop();
    await other.card('import', csv);
    const [csvAgain, jsonAgain] = [file('again.csv'), file('again.json')];
    await other.card('export', '--csv', csvAgain);
    await other.card('export', jsonAgain);
    const text = (path: string): string => readFileSync(path, 'utf8');
    expect(text(csvAgain)).toBe(text(csv));
    expect(JSON.parse(text(jsonAgain))).toEqual(JSON.parse(text(json)));
    expect((await other.card('import', json)).out).toEqual([
      '0 cards imported (0 for new wells), 200 unchanged.',
    ]);
    expect((await other.card('list')).out).toHaveLength(200);
  }, 60_000);

  it('a wrong row leaves nothing half taken, unless it may be left out', async () => {
    const { station, card } = await shop();
    await card('set', 'mill', 'owner=A', 'firm=Larch', '--new');
    const table = file(
      'wells.csv',
      'well,owner,pump.motor,firm\nmill,B,,-\nbarn,C,1 psi,\nHill,D,,\nyard,E,1 hp,\n',
    );
    const refused = await card('import', table);
    expect(refused.code).toBe(EXIT.usage);
    expect(refused.err).toEqual([
      'line 3, barn: pump.motor must be a power in W, hp or kW: "1 psi"',
      'line 4: well must be 1 to 40 of a-z, 0-9 and -: "Hill"',
      'Nothing was imported: 2 of 4 lines cannot be read. Correct them, or skip them with --skip-bad',
    ]);
    expect(await cards(station)).toBe(1);
    const taken = await card('import', table, '--skip-bad', '--by', 'Tom');
    expect(taken.out).toEqual(['2 cards imported (1 for new wells), 0 unchanged, 2 skipped.']);
    expect((await card('show', 'mill')).out.slice(1)).toEqual(['  owner  B']);
    expect((await card('history', 'mill')).out[0]).toContain('Tom');
  });

  it('what only the server can know stops it, says how far it came, and goes on when put right', async () => {
    const { station, card } = await shop();
    const lost = '0'.repeat(64);
    const text = `well,owner,electrical.photos\nmill,A,\nbarn,B,${lost}\nyard,C,\n`;
    const stopped = await card('import', file('wells.csv', text));
    expect(stopped.code).toBe(EXIT.failed);
    expect(stopped.err.join(' ')).toContain(
      'line 3, barn: Cannot read card: electrical.photos must be documents',
    );
    expect(stopped.err.join(' ')).toContain('Imported: 2 of 3 cards. Run the command again to continue.');
    expect(await cards(station)).toBe(2);
    const again = await card('import', file('again.csv', text.replace(lost, '')));
    expect(again.out).toEqual(['1 card imported (1 for new wells), 2 unchanged.']);
  });

  it('a table that is there already, perhaps filled in by hand, is not written over', async () => {
    const { card } = await shop();
    const table = file('wells.csv', 'well,owner\nmill,Larch\n');
    await expect(card('export', table)).rejects.toThrow('it already exists. Choose another name');
    expect(readFileSync(table, 'utf8')).toBe('well,owner\nmill,Larch\n');
  });

  it('no card yet: the table shows what could be filled in', async () => {
    const { card } = await shop();
    const [header] = (await card('export', '--csv')).out;
    expect(header).toContain('pump.motor');
    expect(header).toContain('electrical.wires.controlBox');
  });
});

describe('card check', () => {
  it('reads a file without a server', async () => {
    const card = (...args: string[]) => runCli(['card', ...args]);
    const odd = await card('check', file('card.json', '{"well":"mill","pump":{"installed":"2999"}}'));
    expect(odd.code).toBe(EXIT.ok);
    expect(odd.out).toEqual([
      'card 1, mill: is this right? pump.installed: The pump was installed in 2999, which is still to come. Is the date right?',
      '1 card: 0 cannot be read; 1 question.',
    ]);
    const wrong = await card('check', file('wells.csv', 'well,switch\nmill,60/40\nBarn,\n'));
    expect(wrong.code).toBe(EXIT.usage);
    expect(wrong.out).toEqual([
      'line 2, mill: switch.points must have its cut-in above 0 and below its cut-out: "60/40"',
      'line 3: well must be 1 to 40 of a-z, 0-9 and -: "Barn"',
      '2 cards: 2 cannot be read; 0 questions.',
    ]);
  });

  it.each([
    ['wells.csv', Buffer.from([0xff, 0xfe, 0x77, 0x00]), 'it must be UTF-8'],
    ['card.json', Buffer.from('{'), 'it must be JSON'],
    ['wells.xls', Buffer.from('x'), 'its name must end in .csv or .json'],
  ])('%s that is none is refused', async (name, bytes, says) => {
    const path = file(name);
    writeFileSync(path, bytes);
    const card = (...args: string[]) => runCli(['card', ...args]);
    await expect(card('check', path)).rejects.toThrow(says);
  });
});
