/** Card files from a folder of their own. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { loadCards } from '../../src/config/load-cards.ts';
import { SettingsError } from '../../src/config/settings.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'cards-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
});

function write(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

const usual = { falseAlarmsPerYear: 0.05 };

test('reads files by name, then the folder in order, and leaves other files alone', () => {
  const south = write('south', '{"well":"south"}');
  write('b.json', '{"well":"b","use":"stock"}');
  write('a.json', '\uFEFF{"well":"a"}');
  write('notes.txt', 'no card');
  const loaded = loadCards({ ...usual, cards: [south], cardsDir: folder });
  expect(loaded.map(({ card }) => card.well)).toEqual(['south', 'a', 'b']);
  expect(loaded[2]?.json).toEqual({ well: 'b', use: 'stock' });
});

test('no cards are no trouble', () => {
  expect(loadCards({ ...usual, cards: [] })).toEqual([]);
});

test('a card that cannot be used names its file, key, rule and value', () => {
  const path = write('bad.json', '{"well":"a","relief":"75"}');
  expect(() => loadCards({ ...usual, cards: [path] })).toThrow(SettingsError);
  expect(() => loadCards({ ...usual, cards: [path] })).toThrow(
    `Cannot read card ${path}: relief must be a pressure in kPa, psi or bar: "75"`,
  );
});

test('no JSON, no file, no folder', () => {
  const path = write('bad.json', '{');
  expect(() => loadCards({ ...usual, cards: [path] })).toThrow(
    `Cannot read card ${path}: the file must exist and contain JSON: `,
  );
  expect(() => loadCards({ ...usual, cards: [join(folder, 'none.json')] })).toThrow(
    /none\.json: the file must exist and contain JSON: ENOENT/,
  );
  expect(() => loadCards({ ...usual, cards: [], cardsDir: join(folder, 'none') })).toThrow(
    `Cannot read settings: cardsDir must be a folder that can be read: ${JSON.stringify(join(folder, 'none'))}`,
  );
});

test('two cards of one well', () => {
  const first = write('a.json', '{"well":"a"}');
  const second = write('b.json', '{"well":"a"}');
  expect(() => loadCards({ ...usual, cards: [], cardsDir: folder })).toThrow(
    `Cannot read card ${second}: a well must have only one card, and ${first} is also a card of "a"`,
  );
});

test('what the settings say of false alarms is written into cards that say nothing of them', () => {
  write('a.json', '{"well":"a"}');
  write('b.json', '{"well":"b","falseAlarmsPerYear":2}');
  const loaded = loadCards({ cards: [], cardsDir: folder, falseAlarmsPerYear: 0.5 });
  expect(loaded.map(({ card }) => card.falseAlarmsPerYear)).toEqual([0.5, 2]);
  expect(loaded[0]?.json).toEqual({ well: 'a', falseAlarmsPerYear: 0.5 });
});
