/**
 * An accessor of the catalogue is called at the moment of showing. A call while a module loads
 * would hold the sentence of whatever language stood then, so no module has one outside a function.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { accessorsIn, callsWhileLoading, importsIn } from '../support/module-calls.ts';

const TOP = fileURLToPath(new URL('../../', import.meta.url));

const files = ['src', 'shared', 'dashboards'].flatMap((folder) =>
  readdirSync(`${TOP}${folder}`, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => ({
      file: `${folder}/${name}`,
      source: readFileSync(`${TOP}${folder}/${name}`, 'utf8'),
    })),
);

/** File and exported name of every accessor. */
const accessors = new Set(
  files.flatMap(({ file, source }) => accessorsIn(file, source).map((name) => `${file} ${name}`)),
);

test('each chapter of the catalogue has its accessor', () => {
  expect(accessors.size).toBeGreaterThan(30);
});

test('no module calls one while it loads', () => {
  const early = files.flatMap(({ file, source }) => {
    const imported = importsIn(file, source)
      .filter(({ from, name }) => accessors.has(`${targetOf(file, from)} ${name}`))
      .map(({ as }) => as);
    const own = accessorsIn(file, source);
    return callsWhileLoading(file, source, new Set([...own, ...imported])).map((line) => `${file}:${line}`);
  });
  expect(early).toEqual([]);
});

function targetOf(file: string, from: string): string {
  return from.startsWith('.') ? relative(TOP, resolve(TOP, dirname(file), from)) : from;
}

test.each([
  ['in a constant', 'const title = texts().title;', [1]],
  ['in a template of a table', 'const rows = [\n{ name: `${texts().title}` }];', [2]],
  ['in a function that is called at once', 'const title = (() => texts().title)();', [1]],
  ['in a static field', 'class Page { static title = texts().title; }', [1]],
  ['in a function', 'const title = () => texts().title;', []],
  ['in a method', 'class Page { title() { return texts().title; } }', []],
  ['in a field of an object that is made later', 'class Page { title = texts().title; }', []],
  ['of another function', 'const title = words().title;', []],
])('a call %s', (_, source, lines) => {
  expect(callsWhileLoading('page.ts', source, new Set(['texts']))).toEqual(lines);
});
