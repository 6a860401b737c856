/** English stands in the catalogue, shared/text/en, and nowhere else that a person reads it. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { englishIn } from '../support/english.ts';

const TOP = fileURLToPath(new URL('../../', import.meta.url));

/** Looks like a text and is none, or is the same in every language. */
const NOT_TEXTS: Readonly<Record<string, string>> = {
  Stillwell: 'the name of the program',
  'stillwell serve --listen': 'a command as it is typed',
  'stillwell node add NAME': 'a command as it is typed',
  'pump.': 'the start of a field’s key',
  as: 'part of a unit’s name: mg/L as N',
  min: 'the symbol of a unit',
};

function sources(folder: string): string[] {
  return readdirSync(`${TOP}${folder}`, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => `${folder}/${name}`);
}

describe('English outside the catalogue', () => {
  test.each(['dashboards'])('in %s: none', (folder) => {
    const found = sources(folder).flatMap((file) =>
      englishIn(file, readFileSync(`${TOP}${file}`, 'utf8'))
        .filter(({ text }) => NOT_TEXTS[text] === undefined)
        .map(({ line, text }) => `${file}:${line} ${text}`),
    );
    expect(found).toEqual([]);
  });

  test('no exception is left that nothing needs', () => {
    const used = new Set(
      sources('dashboards').flatMap((file) =>
        englishIn(file, readFileSync(`${TOP}${file}`, 'utf8')).map(({ text }) => text),
      ),
    );
    expect(Object.keys(NOT_TEXTS).filter((text) => !used.has(text))).toEqual([]);
  });
});
