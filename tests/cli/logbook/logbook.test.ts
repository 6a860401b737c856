/**
 * What people write down of a well from the command line, against a whole server: readings, water,
 * papers, visits, what they know, the book.
 */
import { entriesOf } from '../../../shared/entries/entry.ts';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { EXIT, UsageError } from '../../../src/cli/command.ts';
import { fileOf, openShop, type Shop } from '../shop.ts';

/** A server with one well that has a card. */
async function mill(): Promise<Shop> {
  const shop = await openShop();
  const fields = ['timeZone=America/Denver', 'switch=40/60', 'pump.motor=1 hp', 'pump.setDepth=180 ft'];
  await shop.run('card', 'set', 'mill', ...fields, '--new');
  return shop;
}

/** Days in the past, ISO dates: half a year ago, and later. */
const [FIRST, THEN, LATER] = [200, 180, 150].map((days) =>
  new Date(Date.now() - days * 86_400_000).toISOString().slice(0, 10),
) as [string, string, string];

describe('stillwell reading', () => {
  it('writes readings down and lists them against the pinned one', async () => {
    const { run } = await mill();
    expect((await run('reading', 'list', 'mill')).out).toEqual(['No readings for mill yet.']);
    const pinned = ['add', 'mill', 'static-level', '41 ft', '--on', FIRST, '--pin', '--with', 'level tape'];
    const first = await run('reading', ...pinned);
    expect(first).toMatchObject({ code: EXIT.ok, out: ['Recorded: Static level, 41 ft.'] });
    await run('reading', 'add', 'mill', 'static-level', '43 ft', '--on', LATER, '--by', 'Tom');
    await run('reading', 'add', 'mill', 'flow', '5 gal in 48 s', '--where', 'garden tap', '--on', LATER);
    expect((await run('reading', 'list', 'mill')).out).toEqual([
      'Static level',
      `  ${FIRST} * 41 ft  with level tape; by ines`,
      `  ${LATER}   43 ft  +2 ft from the reference; by Tom`,
      'Flow, garden tap',
      // 5 gal x 3.785412 L/gal (NIST SP 811) over 0.8 min.
      `  ${LATER}   23.6588 L/min  by ines`,
    ]);
    const [line = ''] = (await run('reading', 'list', 'mill', '--json')).out;
    expect(JSON.parse(line)).toMatchObject({ kind: 'static-level', rows: [{ pinned: true }, { by: 'Tom' }] });
  });
});

describe('stillwell water', () => {
  it('keeps a report typed or as a table, and lists it beside its limits', async () => {
    const { run } = await mill();
    const results = ['Nitrate=14.2 mg/L as N', 'Total coliform=absent', 'Lead=< 1 ug/L'];
    const from = ['--on', FIRST, '--laboratory', 'County laboratory'];
    const kept = await run('water', 'add', 'mill', ...results, ...from);
    expect(kept.code).toBe(EXIT.ok);
    expect(kept.out[0]).toBe(`${FIRST}, County laboratory, by ines`);
    expect(kept.out[1]).toContain('Nitrate: 14.2 mg/L as N');
    expect(kept.out[1]).toContain('Primary limit 10 mg/L as N: over it.');
    expect(kept.out.join(' ')).toContain('must not be boiled');
    expect(kept.out.at(-1)).toMatch(/^Recorded\. The next test is due on \d{4}-\d\d-\d\d\.$/);
    const table = fileOf('report.csv', 'analyte,value,unit\r\nIron,0.1,mg/L\r\npH,7.2,\r\n');
    expect((await run('water', 'add', 'mill', '--results', table, '--on', THEN)).code).toBe(EXIT.ok);
    const { out } = await run('water', 'list', 'mill');
    expect(out[0]).toBe(`${THEN}, by ines`);
    expect(out.at(-1)).toBe('Not tested within a year: Total dissolved solids.');
  });

  it.each([
    [['Nitrate'], 'must be an analyte and its result'],
    [['Nitrate=3 mg/L'], 'results.1.unit must say as what'],
    [[], 'a result must be given'],
    [['--results', 'no-such.csv'], 'Cannot read no-such.csv: there is no such file'],
  ])('%j is a mistake that is named', async (args, says) => {
    const { run } = await mill();
    await expect(run('water', 'add', 'mill', ...args)).rejects.toThrow(says);
    await expect(run('water', 'add', 'mill', ...args)).rejects.toThrow(UsageError);
  });
});

describe('a table of results', () => {
  it.each([
    ['analyte,result\nIron,1\n', 'line 1: it must name the columns analyte, value, and can name unit'],
    ['analyte,value,unit\nIron,1,mg/L\nLead,,ug/L\n', 'line 3: column value is empty'],
    ['analyte,value,unit\nIron,1\n', 'line 2: it has 2 cells, but the first line has 3'],
    ['analyte,value,unit\n"Iron,1,mg/L\n', 'line 2: a quote is opened and never closed'],
  ])('%j is refused with its line and column', async (text, says) => {
    const { run } = await mill();
    const table = fileOf('report.csv', text);
    await expect(run('water', 'add', 'mill', '--results', table)).rejects.toThrow(says);
  });
});

describe('stillwell document', () => {
  it('keeps papers, finds them, and gives the same bytes back', async () => {
    const { run } = await mill();
    const [log, receipt] = [
      fileOf('well-log.txt', 'Drilled to 220 ft'),
      fileOf('receipt.pdf', '%PDF-1.4\n%%EOF\n'),
    ];
    const added = await run(
      'document',
      'add',
      'mill',
      log,
      receipt,
      '--about',
      'pump',
      '--note',
      'From the attic',
    );
    expect(added.out).toEqual([
      expect.stringMatching(/^Saved: well-log\.txt, [0-9a-f]{12}$/),
      expect.stringMatching(/^Saved: receipt\.pdf, [0-9a-f]{12}$/),
    ]);
    const listed = (await run('document', 'list', 'mill', '--find', 'log attic')).out;
    expect(listed).toEqual([
      expect.stringMatching(
        /^[0-9a-f]{12} {2}\d{4}-\d\d-\d\d {2}well-log\.txt {2}\(text, 17 bytes; pump; From the attic\)$/,
      ),
    ]);
    expect((await run('document', 'list', 'mill', '--find', 'rig')).out).toEqual([
      'None of 2 documents contains all of these words.',
    ]);
    const [out, again] = [fileOf('out.txt'), fileOf('again.pdf')];
    await run('document', 'get', 'mill', 'well-log.txt', out);
    await run('document', 'get', 'mill', added.out[1]!.slice(-12), again);
    expect(readFileSync(out)).toEqual(readFileSync(log));
    expect(readFileSync(again)).toEqual(readFileSync(receipt));
    await expect(run('document', 'get', 'mill', 'well-log.txt', out)).rejects.toThrow('it already exists');
    await expect(run('document', 'get', 'mill', 'nothing', fileOf('x'))).rejects.toThrow(
      'has no such document',
    );
  });

  it('a program that is called a manual is refused by the server, and by its words', async () => {
    const { run } = await mill();
    const disguised = fileOf('manual.pdf', Buffer.from([0x7f, 0x45, 0x4c, 0x46, 1, 1, 1, 0]));
    await expect(run('document', 'add', 'mill', disguised)).rejects.toThrow(
      'The content counts, not the file name',
    );
  });
});

describe('stillwell visit', () => {
  it('opens, keeps work with its parts and photo, closes with the proof as far as it is known', async () => {
    const { run, station } = await mill();
    const parts = (await run('visit', 'parts', 'mill')).out;
    expect(parts).toContain('Pump and motor');
    expect(parts.join(' ')).toContain('180 ft');
    await expect(run('visit', 'work', 'mill', 'New pump')).rejects.toThrow('no visit to mill is open');
    const opened = (await run('visit', 'open', 'mill', '--by', 'Tom')).out;
    expect(opened[0]).toBe('A visit to mill is open. Alarms are suppressed until you close it.');
    expect(opened[1]).toContain('lock it off');
    await expect(run('visit', 'open', 'mill')).rejects.toThrow('one is already open, opened by Tom');
    const args = [
      'New pump set at 180 ft',
      '--part',
      '1 hp pump',
      '--part',
      '180 ft pipe',
      '--touched',
      'pump,pipe',
    ];
    const photo = fileOf('new.txt', 'plate read: 1 hp');
    const work = await run('visit', 'work', 'mill', ...args, '--done-by', 'Larch Wells', '--photo', photo);
    expect(work.out).toEqual(['Recorded: New pump set at 180 ft']);
    const closed = (await run('visit', 'close', 'mill')).out;
    expect(closed[0]).toBe(
      'The visit to mill is closed. A new baseline is learned, because the work affected pump, pipe.',
    );
    expect(closed[1]).toMatch(/^Before and after, mill: visit of .*; closed /);
    expect(closed[2]).toBe(
      '  New pump set at 180 ft (parts: 1 hp pump, 180 ft pipe; affected pump, pipe; done by Larch Wells; recorded by ines; 1 document)',
    );
    expect(closed).toContain('Running amps: Not known yet: 0 of 10 runs since the visit was closed.');
    expect(closed.at(-1)).toContain('does not show that the work caused the change');
    const acts = (await station.store.acts({ well: 'mill', fromMs: 0 })).map(({ kind, body }) => [
      kind,
      body,
    ]);
    expect(acts.slice(1)).toEqual([
      ['visit-opened', { kind: 'visit-opened', well: 'mill' }],
      ['visit-closed', { kind: 'visit-closed', well: 'mill', newBaseline: true }],
    ]);
    const [listed = '', what] = (await run('visit', 'list', 'mill')).out;
    expect(listed).toContain('by Tom; closed');
    expect(what).toContain('New pump set');
    const report = await run('visit', 'report', 'mill', listed.split('  ')[0]!, '--json');
    expect(JSON.parse(report.out[0]!)).toMatchObject({ visit: { newBaseline: true }, days: 14 });
    await expect(run('visit', 'close', 'mill')).rejects.toThrow('none is open');
    await expect(run('visit', 'report', 'mill', 'nothing')).rejects.toThrow('mill has no visit nothing');
  });

  it.each([
    [[], true],
    [['--keep-baseline'], false],
  ])('work on the tank, closed with %j', async (flags, anew) => {
    const { run } = await mill();
    await run('visit', 'open', 'mill');
    await run('visit', 'work', 'mill', 'New tank', '--touched', 'tank');
    const [answer = ''] = (await run('visit', 'close', 'mill', ...flags, '--json')).out;
    expect(JSON.parse(answer)).toMatchObject({ visit: { newBaseline: anew, affectedParts: ['tank'] } });
  });
});

describe('a firm’s list of checks that were done', () => {
  const rows = [
    'well,check,on,result,value,left,note,by',
    `mill,precharge,${FIRST},put-right,31 psi,38 psi,"low, added air",Tom`,
    `mill,relief-valve,${THEN},,,,,`,
    `mill,water-test,${LATER},right,,,,`,
  ];

  it('is written down once, and what it says is due by its days then', async () => {
    const { run, station } = await mill();
    const table = fileOf('done.csv', rows.join('\r\n'));
    const args = ['done', '--table', table];
    expect((await run('due', ...args, '--dry-run')).out).toEqual([
      '3 checks would be recorded, already recorded: 0. Nothing was changed.',
    ]);
    expect(await station.store.entries('mill')).toHaveLength(0);
    expect((await run('due', ...args)).out).toEqual(['3 checks recorded, already recorded: 0.']);
    expect((await run('due', ...args)).out).toEqual(['0 checks recorded, already recorded: 3.']);
    expect(
      entriesOf(await station.store.entries('mill'), 'check').map(({ by, body }) => [
        by,
        body.check,
        body.text,
      ]),
    ).toEqual([
      ['Tom', 'precharge', 'low, added air'],
      ['ines', 'relief-valve', undefined],
      ['ines', 'water-test', undefined],
    ]);
    const due = (await run('due', 'mill', '--days', '400')).out.filter((line) =>
      /^\d{4}-.*late|in /.test(line),
    );
    expect(due.map((line) => line.split(/ {2,}/)[3])).toEqual(
      expect.arrayContaining(['precharge', 'relief-valve', 'water-test']),
    );
  });

  it.each([
    ['barn', 'precharge', 'FIRST', '', 'line 2: column well: unknown well barn'],
    ['mill', 'tyres', 'FIRST', '', 'line 2: column check: must be one of the checks of mill'],
    ['mill', 'precharge', '2025-02-30', '', 'line 2: column on: Must be a day of the calendar'],
    ['mill', 'precharge', '2999-01-01', '', 'line 2: column on: Must not lie ahead'],
    ['mill', 'precharge', 'FIRST', '31 ft', 'line 2: column value: must be a pressure'],
  ])('%s %s %s %s: nothing is written', async (well, check, on, value, says) => {
    const { run, station } = await mill();
    const day = on === 'FIRST' ? FIRST : on;
    const table = fileOf(
      'done.csv',
      `well,check,on,value\n${well},${check},${day},${value}\nmill,freeze,${LATER},\n`,
    );
    const { code, err } = await run('due', 'done', '--table', table);
    expect(code).toBe(EXIT.usage);
    expect(err[0]).toContain(says);
    expect(err.at(-1)).toBe('Nothing was recorded: 1 of 2 lines cannot be read.');
    expect(await station.store.entries('mill')).toHaveLength(0);
  });
});

describe('a row that only the server refuses', () => {
  it('stops it, says how far it came, and goes on when put right', async () => {
    const { run } = await mill();
    const text = `well,check,on,value\nmill,well-cap,${FIRST},\nmill,precharge,${FIRST},3800 psi\n`;
    const stopped = await run('due', 'done', '--table', fileOf('done.csv', text));
    expect(stopped.code).toBe(EXIT.failed);
    expect(stopped.err.join(' ')).toContain(
      'line 3, mill: Cannot read entry: value must be between 0 and 300 psi',
    );
    expect(stopped.err.join(' ')).toContain(
      'Recorded before that: 1 of 2 checks. Run the command again to continue.',
    );
    const again = fileOf('again.csv', text.replace('3800', '38'));
    expect((await run('due', 'done', '--table', again)).out).toEqual([
      '1 check recorded, already recorded: 1.',
    ]);
  });
});

describe('stillwell note', () => {
  it('keeps one line with its end as an act, and its checks wait for a well that is laid up', async () => {
    const { run, station } = await mill();
    const said = (await run('note', 'mill', 'guests', 'for', '3', 'days')).out;
    expect(said[0]).toMatch(/^Read as: "guests"\. Unusual use is expected until the end of /);
    const laid = (await run('note', 'mill', 'laid up for 5 months')).out;
    expect(laid[0]).toMatch(
      /^Read as: "laid up"\. The well is laid up, and its alarms are suppressed until the end of /,
    );
    const acts = await station.store.acts({ well: 'mill', fromMs: 0 });
    expect(acts.slice(1).map(({ kind, by }) => [kind, by])).toEqual([
      ['expected', 'ines'],
      ['laid-up', 'ines'],
    ]);
    const due = (await run('due', 'mill')).out;
    expect(due.at(-1)).toMatch(/^mill {2}laid up until \d{4}-\d\d-\d\d {2}.*relief-valve/);
    expect((await run('note', 'mill', '--in-service')).out).toEqual(['mill is in service again.']);
    expect((await run('due', 'mill')).out.join(' ')).not.toContain('laid up');
    expect((await run('note', 'mill', '--out-of-service')).out[0]).toContain('out of service');
    const listed = (await run('note', 'mill')).out.map((line) => line.replace(/^.*?[ap]m {2}/, ''));
    expect(listed.map((line) => line.split(/[,(]/)[0]?.trim())).toEqual([
      'out of service',
      'back in service',
      'laid up',
      'guests',
    ]);
    const [json = ''] = (await run('note', 'mill', 'guests until 30 December', '--laid-up', '--json')).out;
    expect(JSON.parse(json)).toMatchObject({ done: true, act: { kind: 'laid-up', text: 'guests' } });
  });
});

describe('stillwell log', () => {
  it('lists what was written, takes a note that calls for a water test, and strikes a slip', async () => {
    const { run } = await mill();
    await run('log', 'note', 'mill', 'Creek over the yard', '--event', 'flood', '--on', FIRST);
    const [line = ''] = (await run('log', 'list', 'mill')).out;
    expect(line.split('  ').slice(1)).toEqual([
      FIRST,
      'note; text: Creek over the yard; event: flood; by ines',
    ]);
    const id = line.split('  ')[0]!;
    expect((await run('log', 'void', 'mill', id, '--why', 'Another yard')).out).toEqual([
      'Voided. The entry stays in the logbook, marked as void.',
    ]);
    const after = (await run('log', 'list', 'mill')).out;
    expect(after[0]).toContain('; void');
    expect(after[1]).toContain(`struck of ${id}; text: Another yard`);
    expect((await run('log', 'list', 'mill', '--kind', 'reading')).out).toEqual(['No entries for mill yet.']);
  });
});

describe('mistakes in what was typed', () => {
  it.each<[command: string, args: string[], says: string]>([
    ['reading', ['add', 'mill', 'static-level'], 'value must be given'],
    ['reading', ['add', 'mill', 'static-level', '41 psi'], 'value must be a length'],
    ['reading', ['add', 'mill', 'depth', '41 ft'], 'what must be one of'],
    ['reading', ['add', 'mill', 'flow', 'much in 48 s'], 'it must be a volume and a time'],
    ['reading', ['add', 'mill', 'amps', '7.9 A', '--on', '2030-01-01'], 'Must not lie ahead'],
    ['reading', ['add', 'mill', 'amps', '7.9 A', '--photo', 'no-such.jpg'], 'there is no such file'],
    ['reading', ['take', 'mill'], 'Cannot run "stillwell reading take"'],
    ['reading', ['list'], 'well must be given'],
    ['reading', ['list', 'mill', 'barn'], 'Cannot read "barn"'],
    ['document', ['add', 'mill'], 'file must be given'],
    ['document', ['get', 'mill', 'x'], 'file must be given'],
    ['document', ['read', 'mill'], 'Cannot run "stillwell document read"'],
    ['visit', ['work', 'mill'], 'text must be given'],
    ['visit', ['work', 'mill', 'x', '--on', FIRST, '--touched', 'roof'], 'touched must be a list of pump'],
    ['visit', ['close', 'mill', '--new-baseline', '--keep-baseline'], 'give only one of'],
    ['visit', ['report', 'mill'], 'there has been no visit to mill yet'],
    ['visit', ['parts', 'mill', '--units', 'feet'], 'it must be us or metric: feet'],
    ['visit', ['pull', 'mill'], 'Cannot run "stillwell visit pull"'],
    ['note', ['mill', 'guests'], 'When is it over?'],
    ['note', ['mill', 'guests', '--in-service'], 'give only one of'],
    ['note', ['mill', 'guests until Sunday', '--laid-up', '--expected'], 'give only one of'],
    ['log', ['note', 'mill'], 'text must be given'],
    ['log', ['note', 'mill', 'x', '--event', 'party'], 'event must be one of'],
    ['log', ['void', 'mill', 'nothing'], 'the entry that it replaces is not in the logbook of this well'],
  ])('%o %j', async (command, args, says) => {
    const { run } = await mill();
    await expect(run(command, ...args)).rejects.toThrow(says);
    await expect(run(command, ...args)).rejects.toThrow(UsageError);
  });

  it.each<[command: string, args: string[]]>([
    ['reading', ['add', 'barn', 'amps', '7.9 A']],
    ['water', ['list', 'barn']],
    ['document', ['list', 'barn']],
    ['visit', ['open', 'barn']],
    ['note', ['barn', 'guests until Sunday']],
    ['log', ['note', 'barn', 'x']],
  ])('%o of a well that is not there', async (command, args) => {
    const { run } = await mill();
    await expect(run(command, ...args)).rejects.toThrow('Unknown well: barn');
  });
});
