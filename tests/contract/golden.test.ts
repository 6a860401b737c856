/**
 * Every golden message comes out as firmware-contract/ says, and the folder and its index hold the
 * same files.
 */
import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { REFUSALS } from '../../src/core/decode/messages.ts';
import { refusalText } from '../../src/core/decode/refusal-text.ts';
import { readMessage } from '../../src/core/decode/read-message.ts';
import { goldenFile, goldenIndex, goldenMessage, plainMessage } from './golden.ts';

const FOLDER = new URL('../../firmware-contract/', import.meta.url);

describe('accepted', () => {
  test.each(goldenIndex.accepted)('$file: $rule', (entry) => {
    const resolved: unknown = JSON.parse(goldenFile(entry.resolved).toString('utf8'));
    expect(plainMessage(readMessage(goldenMessage(entry)))).toEqual(resolved);
  });
});

describe('refused', () => {
  test.each(goldenIndex.refused)('$file: $rule', (entry) => {
    const message = readMessage(goldenMessage(entry));
    expect(message).toMatchObject({ is: 'refusal', refusal: { refused: entry.reason } });
    expect(entry.file).toMatch(new RegExp(`^refused/${entry.reason}\\.`));
  });

  test('its sentence is one plain sentence of bounded length', () => {
    for (const entry of goldenIndex.refused) {
      const message = readMessage(goldenMessage(entry));
      if (message.is !== 'refusal') throw new Error(`${entry.file} was taken`);
      expect(refusalText(message.refusal)).toMatch(/^[A-Za-z"].{10,300}\.$/s);
    }
  });

  test('every reason that one message can show has a golden message', () => {
    const shown = new Set(goldenIndex.refused.map(({ reason }) => reason));
    // The rest need more than a file: too-large and too-many-records are made in
    // tests/core/decode/read-message.test.ts, the last two are the server's.
    const made = ['too-large', 'too-many-records', 'not-let-in', 'too-many-nodes'];
    expect(REFUSALS.filter((reason) => !shown.has(reason))).toEqual(made);
  });
});

test('the index names every file, and every file is in the index', () => {
  const named = [
    ...goldenIndex.accepted.flatMap(({ file, resolved }) => [file, resolved]),
    ...goldenIndex.refused.map(({ file }) => file),
  ];
  const there = ['accepted', 'refused'].flatMap((folder) =>
    readdirSync(new URL(`${folder}/`, FOLDER)).map((name) => `${folder}/${name}`),
  );
  expect(there.sort()).toEqual([...new Set(named)].sort());
});
