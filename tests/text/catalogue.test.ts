/** English stands in the catalogue, shared/text/en, and nowhere else that a person reads it. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { englishIn } from '../support/english.ts';

/**
 * Folders that show texts and hold none. What the API's description says of its routes and fields
 * is documentation for developers and stands beside them, in shared/api.
 */
const FOLDERS = [
  'dashboards',
  'shared/view',
  'shared/drawing',
  'shared/acts',
  'shared/alarms',
  'shared/api',
  'shared/card',
  'shared/entries',
  'shared/labels',
  'shared/notes',
  'shared/quantity',
  'shared/readings',
  'shared/schema',
  'shared/units',
  'shared/water',
  'src/core',
  'src/logbook',
  'src/cli',
  'src/config',
  'src/replay',
  'src/server',
  'src/channels',
  'src/http',
  'src/mqtt',
  'src/store',
  'src/settings-shapes.ts',
  'src/main.ts',
  'src/mutex.ts',
];

/** Files that write documents for developers, in English as the contract is. */
const DOCUMENTS: Readonly<Record<string, string>> = {
  'shared/schema/field-text.ts': 'the tables of the contract and the descriptions of the API’s fields',
};

const TOP = fileURLToPath(new URL('../../', import.meta.url));

/** Looks like a text and is none, or is the same in every language. */
const NOT_TEXTS: Readonly<Record<string, string>> = {
  Stillwell: 'the name of the program',
  'stillwell serve --listen': 'a command as it is typed',
  'stillwell node add NAME': 'a command as it is typed',
  Jcksvxyzçýÿ: 'letters of one width',
  Mm: 'letters of one width',
  "Arial, 'Liberation Sans', Helvetica, sans-serif": 'names of fonts',
  'pipe unknown': 'classes of a drawing',
  'tank unknown': 'classes of a drawing',
  'level pumping': 'classes of a drawing',
  '-//Stillwell//Checks of wells//EN': 'who made a calendar, for programs',
  '/export.': 'a path of the API',
  'mm; margin: 0 } body { margin: 0 }': 'a style sheet',
  'svg { display: block; break-after: page } svg:last-of-type { break-after: auto }': 'a style sheet',
  'private, max-age=31536000, immutable': 'a header of HTTP',
  'public, max-age=31536000, immutable': 'a header of HTTP',
  'noindex, nofollow': 'a header of HTTP',
  'attachment; filename="': 'a header of HTTP',
  'application/openmetrics-text; version=1.0.0; charset=utf-8': 'a media type',
  'acknowledged later': 'an error that only the MQTT library sees',
  ': still here': 'a comment of the live stream, for programs',
  'notices.': 'the path of a setting',
  'results.': 'the path of a field',
  'alarm.': 'the beginning of an event’s type',
  'reads.': 'the path of a field',
  'pump.': 'the path of a field',
  'pumps.': 'the path of a field',
  Card: 'the name of a shape in the API’s description',
  Pa: 'the symbol of a unit',
  Cel: 'the symbol of a unit',
  hp: 'the symbol of a unit',
  Mohm: 'the symbol of a unit',
  Mohms: 'the symbol of a unit',
  'should be open': 'evidence as it is stored; shared/text/en/figure-names.ts names it',
  'may run on two phases': 'evidence as it is stored',
  'far out of range': 'evidence as it is stored',
  'ended the run': 'evidence as it is stored',
  'per mL': 'the name of a unit, as it is typed and kept',
  'color units': 'the name of a unit, as it is typed and kept',
  'grains per gallon': 'the name of a unit, as it is typed and kept',
  as: 'part of a unit’s name: mg/L as N',
  min: 'the symbol of a unit',
  '(prefers-color-scheme: dark)': 'a question to the browser',
};

function sources(folder: string): string[] {
  if (/\.tsx?$/.test(folder)) return [folder];
  return readdirSync(`${TOP}${folder}`, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => `${folder}/${name}`)
    .filter((file) => DOCUMENTS[file] === undefined);
}

describe('English outside the catalogue', () => {
  test.each(FOLDERS)('in %s: none', (folder) => {
    const found = sources(folder).flatMap((file) =>
      englishIn(file, readFileSync(`${TOP}${file}`, 'utf8'))
        .filter(({ text }) => NOT_TEXTS[text] === undefined)
        .map(({ line, text }) => `${file}:${line} ${text}`),
    );
    expect(found).toEqual([]);
  });

  test('no exception is left that nothing needs', () => {
    const used = new Set(
      FOLDERS.flatMap(sources).flatMap((file) =>
        englishIn(file, readFileSync(`${TOP}${file}`, 'utf8')).map(({ text }) => text),
      ),
    );
    expect(Object.keys(NOT_TEXTS).filter((text) => !used.has(text))).toEqual([]);
  });
});
