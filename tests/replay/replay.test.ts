/** The contract's section 6, rule by rule, on recordings small enough to read. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import * as fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { at, DAY, days, message, NINE, packLine, run, runFile, S } from './support.ts';

const dir = mkdtempSync(join(tmpdir(), 'replay-'));
afterAll(() => rmSync(dir, { recursive: true }));

function file(name: string, content: string | Buffer): string {
  const path = join(dir, name);
  writeFileSync(path, content);
  return path;
}

const tick = (ms: number): string => JSON.stringify({ at: at(ms), act: { kind: 'tick' } });
const act = (ms: number, body: object): string => JSON.stringify({ at: at(ms), act: body });
const silences = /"alarm":"(node|site)-silent"/;

describe('a node without a card', () => {
  test('is a well of its name with one pump, and its cycles are printed', async () => {
    const { code, lines, err } = await run(days(72).map(packLine));
    expect([code, err]).toEqual([0, []]);
    const cycles = lines.filter((line) => line.event === 'cycle');
    expect(cycles.length).toBeGreaterThanOrEqual(4);
    for (const cycle of cycles) expect(cycle).toMatchObject({ well: 'barn', pump: 'p1', ranS: 120 });
  });

  test('becomes a well with its first pack, not with its hello', async () => {
    const hello = message(NINE, 'shed/hello', { contract: 1, channels: [] });
    const refers = act(NINE + S, { kind: 'visit-opened', well: 'shed' });
    const before = await run([hello, refers]);
    expect(before.err.join('\n')).toContain('unknown well shed');
    const after = await run([
      hello,
      packLine({ node: 'shed', seq: 1, atMs: NINE, amps: [0, 0], arrivesMs: NINE + S }),
      refers,
    ]);
    expect(after.err).toEqual([]);
  });
});

describe('the output does not depend on packing, order or resends', () => {
  const said = days(180);

  test('doubled and swapped', async () => {
    const plain = await run([...said.map(packLine), tick(NINE + 9 * DAY)]);
    const swapped = said.flatMap((pack, i) => (i % 7 === 3 ? [said[i + 1] ?? pack, pack] : [pack]));
    const other = await run([...swapped.map(packLine), tick(NINE + 9 * DAY)]);
    expect(other.text).toBe(plain.text);
    expect(plain.lines.length).toBeGreaterThan(10);
  });

  test('two nodes on one well, a day of one sent late, in any order within the settling time', async () => {
    const card = file(
      'two.json',
      JSON.stringify({ well: 'barn', reads: { current: 'panel:current', pressure: 'pumphouse:pressure' } }),
    );
    const both = days(120).flatMap((pack) => [
      { ...pack, node: 'panel', kpa: [] },
      { ...pack, node: 'pumphouse', amps: [] },
    ]);
    const plain = await run([...both.map(packLine), tick(NINE + 9 * DAY)], [card]);
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.integer({ min: 0, max: 5 * DAY }), { minLength: both.length, maxLength: both.length }),
        fc.array(fc.nat(both.length - 1), { maxLength: 30 }),
        async (delays, doubles) => {
          const late = both.map((pack, i) => ({ ...pack, arrivesMs: pack.atMs + 60 * S + delays[i]! }));
          const all = [...late, ...doubles.map((i) => late[i]!)].sort((a, b) => a.arrivesMs - b.arrivesMs);
          const other = await run([...all.map(packLine), tick(NINE + 9 * DAY)], [card]);
          const settled = (text: string): string[] => text.split('\n').filter((line) => !silences.test(line));
          expect(settled(other.text)).toEqual(settled(plain.text));
        },
      ),
      { seed: 17, numRuns: 25 },
    );
    expect(plain.lines.filter((line) => line.event === 'cycle').length).toBeGreaterThan(6);
  });

  test('a pack later than the settling time is left out and counted', async () => {
    const packs = days(60);
    const late = packs.map((pack, i) => (i === 30 ? { ...pack, arrivesMs: NINE + 7.5 * DAY } : pack));
    const sorted = late.sort((a, b) => (a.arrivesMs ?? a.atMs) - (b.arrivesMs ?? b.atMs));
    const ran = await run([...sorted.map(packLine), tick(NINE + 9 * DAY)]);
    const without = await run([...packs.filter((_, i) => i !== 30).map(packLine), tick(NINE + 9 * DAY)]);
    expect(ran.err).toContain('packs too late (over 7 days) and left out: 1');
    const settled = (text: string): string[] => text.split('\n').filter((line) => !silences.test(line));
    expect(settled(ran.text)).toEqual(settled(without.text));
  });
});

describe('lines', () => {
  test('those that are none are counted and passed over', async () => {
    const lines = [
      'connection lost',
      '{"at":"',
      '',
      '{"at":"2026-05-04T09:00:00Z"}',
      '{"topic":"x","payload":1}',
    ];
    const ran = await run([...lines, ...days(30).map(packLine)]);
    expect(ran.code).toBe(0);
    expect(ran.err).toEqual(['lines ignored: 2 not-json, 1 no-message, 1 no-time']);
  });

  test('what is refused is counted by its reason', async () => {
    const ran = await run([
      message(NINE, 'barn/readings', [{ n: 'barn:current', u: 'V', v: 1 }]),
      message(NINE, 'barn/readings', [{ n: 'barn:current', u: 'A', v: 1 }], { retain: 1 }),
      JSON.stringify({ at: at(NINE), topic: 'other/thing', payload: 'x' }),
    ]);
    expect(ran.err[0]).toBe('messages refused: 1 wrong-unit, 1 retained, 1 unknown-topic');
    expect(ran.lines).toEqual([]);
  });

  test('one that is too long is passed over, and the next is read', async () => {
    const ran = await run([`{"x":"${'y'.repeat(3_000_000)}"}`, ...days(30).map(packLine)]);
    expect(ran.err).toEqual(['lines ignored: 1 too-long']);
    expect(ran.lines.some((line) => line.event === 'cycle')).toBe(true);
  });

  test('CBOR, older time forms and CR LF are read', async () => {
    const [first, ...rest] = days(60).map(packLine);
    const minus7 = first!.replace(
      at(NINE + 50_400),
      `${at(NINE + 50_400 - 7 * 3_600_000).slice(0, 19)}Z-0700`,
    );
    expect(minus7).not.toBe(first);
    const plain = await run([first!, ...rest]);
    const other = await run(Buffer.from([minus7, ...rest].join('\r\n')));
    expect(other.text).toBe(plain.text);
  });

  test('gzip is known by its first bytes, from stdin and from a file of any name', async () => {
    const recording = `${days(60).map(packLine).join('\n')}\n`;
    const plain = await runFile(file('plain.ndjson', recording), []);
    expect(plain.lines.length).toBeGreaterThan(3);
    expect((await run(gzipSync(recording))).text).toBe(plain.text);
    expect((await runFile(file('packed.bin', gzipSync(recording)), [])).text).toBe(plain.text);
  });

  test('nothing at all prints nothing', async () => {
    expect(await run(Buffer.alloc(0))).toMatchObject({ code: 0, text: '', err: [] });
  });
});

describe('exit 2, with one clear line', () => {
  const rows: [string, () => Promise<{ code: number; err: string[] }>, RegExp][] = [
    [
      'no such recording',
      () => runFile(join(dir, 'none'), []),
      /^Cannot read recording .*none: there is no such file/,
    ],
    [
      'a torn gzip file',
      () => runFile(file('torn.gz', gzipSync('x'.repeat(99_999)).subarray(0, 60)), []),
      /^Cannot read recording .*torn\.gz: /,
    ],
    [
      'no such card',
      () => run([], [join(dir, 'no-card.json')]),
      /^Cannot read card .*no-card\.json: there is no such file/,
    ],
    ['a folder', () => runFile(dir, []), /^Cannot read recording .*: it is a folder, and a file is needed/],
    ['a card that is no JSON', () => run([], [file('bad.json', '{')]), /^Cannot read card .*bad\.json: /],
    [
      'a card with a wrong unit',
      () => run([], [file('unit.json', '{"well":"barn","tank":{"volume":"44 psi"}}')]),
      /unit\.json: Cannot read card: tank\.volume/,
    ],
    [
      'two cards for one well',
      () => run([], [file('a.json', '{"well":"barn"}'), file('b.json', '{"well":"barn"}')]),
      /^Cannot use card .*b\.json: well barn already has a card$/,
    ],
  ];
  test.each(rows)('%s', async (_, ran, said) => {
    const { code, err } = await ran();
    expect([code, err.length]).toEqual([2, 1]);
    expect(err[0]).toMatch(said);
  });
});

describe('a recording with no line that can be used', () => {
  test.each([
    ['other text', 'day,amps\n2026-11-30,7.9\n'],
    [
      'messages under another root',
      '{"at":"2026-03-12T10:00:00Z","topic":"farm/barn/readings","payload":[]}\n',
    ],
    ['acts of unknown wells', '{"at":"2026-03-12T10:00:00Z","act":{"kind":"visit-opened","well":"barn"}}\n'],
  ])('%s: exit 2, and why at the end', async (_, text) => {
    const { code, err } = await run(Buffer.from(text));
    expect(code).toBe(2);
    expect(err.at(-1)).toMatch(/^Cannot use recording -: none of its \d lines could be used$/);
    expect(err.length).toBeGreaterThan(1);
  });
});

describe('cards', () => {
  test('NODE=CARD.json says which node a card reads by default', async () => {
    const card = file('north.json', '{"well":"north-paddock"}');
    const packs = days(60, 'box-7').map(packLine);
    const ran = await run(packs, [`box-7=${card}`]);
    expect(new Set(ran.lines.map((line) => line.well))).toEqual(new Set(['north-paddock']));
    const own = await run(packs, [card]);
    expect(new Set(own.lines.map((line) => line.well))).toEqual(new Set(['box-7']));
  });

  test('a new card counts from its act on, and takes over the node that it names', async () => {
    const packs = days(240, 'panel').map(packLine);
    const cutMs = NINE + 120 * 60 * S;
    const change = act(cutMs, {
      kind: 'card-changed',
      card: { well: 'upper', reads: { current: 'panel:current' } },
    });
    const { lines } = await run([...packs, change].sort());
    const cycles = lines.filter((line) => line.event === 'cycle');
    const wells = cycles.map((line) => [line.well, Date.parse(String(line.started)) < cutMs]);
    expect(wells.filter(([well, before]) => (well === 'panel') !== before)).toEqual([]);
    expect(new Set(wells.map(([well]) => well))).toEqual(new Set(['panel', 'upper']));
  });
});

describe('time and arrival', () => {
  const speaks = days(60);
  const silentOf = (lines: Record<string, unknown>[]): unknown[] =>
    lines.filter((line) => line.alarm === 'node-silent').map((line) => [line.state, line.node, line.at]);

  test('a node that falls silent is said to be, ten minutes after it was last heard', async () => {
    const heard = NINE + 59 * 60 * S + 50 * S + 400;
    const { lines } = await run([...speaks.map(packLine), tick(heard + 3_600_000)]);
    const silent = silentOf(lines);
    expect(silent).toHaveLength(1);
    expect(silent[0]).toMatchObject(['raised', 'barn', expect.stringMatching(/T10:(09|10|11):/)]);
  });

  test("our own absence is nobody's silence", async () => {
    const last = NINE + 60 * 60 * S;
    const away = act(last + 5 * 3_600_000, { kind: 'server-away', from: at(last) });
    const later = days(60, 'barn', last + 5 * 3_600_000).map((p) => ({ ...p, seq: p.seq + 60 }));
    const { lines } = await run([...speaks.map(packLine), away, ...later.map(packLine)]);
    expect(silentOf(lines)).toEqual([]);
  });

  test('half of a site: one site-silent, no node-silent', async () => {
    const cards = ['barn', 'shed'].map((well) =>
      file(
        `${well}.json`,
        JSON.stringify({ well, site: 'home-farm', use: well === 'shed' ? 'stock' : 'house' }),
      ),
    );
    const packs = [...speaks, ...days(60, 'shed')].map(packLine).sort();
    const { lines } = await run([...packs, tick(NINE + 3 * 3_600_000)], cards);
    const alarms = lines.filter((line) => /silent/.test(String(line.alarm)));
    expect(alarms).toMatchObject([
      { site: 'home-farm', alarm: 'site-silent', state: 'raised', priority: 'now' },
    ]);
    expect(alarms[0]!.well).toBeUndefined();
  });

  test("lines come in the contract's order", async () => {
    const cards = ['barn', 'shed'].map((well) => file(`order-${well}.json`, JSON.stringify({ well })));
    const packs = [...days(3000), ...days(3000, 'shed')].map(packLine).sort();
    const { lines } = await run([...packs, tick(NINE + 10 * DAY)], cards);
    const ranks = ['cycle', 'day', 'baseline', 'alarm'];
    const whens = lines.map((line) => Date.parse(String(line.stopped ?? line.at ?? line.date)));
    for (let i = 1; i < lines.length; i++) {
      if (lines[i]!.event === 'day' || lines[i - 1]!.event === 'day') continue;
      expect(whens[i]!).toBeGreaterThanOrEqual(whens[i - 1]!);
      if (whens[i] !== whens[i - 1]) continue;
      const key = (line: Record<string, unknown>): string =>
        [ranks.indexOf(String(line.event)), line.well, line.pump, line.alarm].join(' ');
      expect(key(lines[i]!) >= key(lines[i - 1]!)).toBe(true);
    }
    expect(lines.filter((line) => line.event === 'day').length).toBeGreaterThanOrEqual(4);
  });
});

test('acts that can not be used are told', async () => {
  const { err, code } = await run([
    act(NINE, { kind: 'visit-opened', well: 'nowhere' }),
    act(NINE, { kind: 'dance' }),
    packLine({ seq: 1, atMs: NINE, amps: [0] }),
  ]);
  expect(code).toBe(0);
  expect(err[0]).toBe('acts not used: 2');
  expect(err).toHaveLength(3);
});
