/**
 * The published JSON Schemas are those that the shapes give (after a change: `npx vitest run
 * --config tests/vitest.config.ts tests/contract/wire-schemas -u` writes them), and they take every
 * golden message that is taken.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
import { describe, expect, test } from 'vitest';
import { wireSchemas } from '../../src/core/decode/json-schemas.ts';
import { goldenFile, goldenIndex } from './golden.ts';

const FOLDER = new URL('../../firmware-contract/schema/', import.meta.url);

describe('firmware-contract/schema', () => {
  test.each([...wireSchemas()])('%s is what the shape gives', async (name, text) => {
    await expect(text).toMatchFileSnapshot(fileURLToPath(new URL(name, FOLDER)));
  });

  test('holds no other file', () => {
    expect(readdirSync(FOLDER).sort()).toEqual([...wireSchemas().keys()].sort());
  });
});

const ajv = new Ajv({ strict: true, allowUnionTypes: true });
addFormats.default(ajv);

function check(kind: string, value: unknown): string {
  const name = kind === 'readings' || kind === 'start' ? 'pack' : kind;
  const schema: unknown = JSON.parse(readFileSync(new URL(`${name}.schema.json`, FOLDER), 'utf8'));
  if (typeof schema !== 'object' || schema === null) throw new Error(`${name} is no schema`);
  return ajv.validate(schema, value) ? 'valid' : ajv.errorsText();
}

describe('the schemas', () => {
  const json = goldenIndex.accepted.filter(({ file }) => file.endsWith('.json'));

  test.each(json)('take $file', ({ file, topic }) => {
    expect(check(topic.split('/').at(-1)!, JSON.parse(goldenFile(file).toString('utf8')))).toBe('valid');
  });

  test.each([
    ['readings', []],
    ['readings', [{ n: 'current', v: '7.9' }]],
    ['readings', [{ n: 'current', v: 7.9, boot: 0 }]],
    ['hello', { contract: 1 }],
    ['hello', { contract: 1, channels: [], clock: 'gps' }],
    ['presence', 'away'],
    ['kept', { boot: 17 }],
    ['ask', { every: 0, forS: 10 }],
  ])('refuse %s %j', (kind, value) => {
    expect(check(kind, value)).not.toBe('valid');
  });
});
