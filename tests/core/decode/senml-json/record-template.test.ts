import { describe, expect, test } from 'vitest';
import { NOT_FOUND } from '../../../../src/core/decode/json/json-scan.ts';
import {
  matchTemplate,
  saveTemplate,
  clearTemplate,
} from '../../../../src/core/decode/senml-json/record-template.ts';
import { T, V, resetFields } from '../../../../src/core/decode/senml/scan-fields.ts';
import { scanRecord } from '../../../../src/core/decode/senml-json/scan-record.ts';

const FIRST = '{"n":"current","u":"A","t":1,"v":7.9}';

/**
 * What the second record gives in the first one's mould: time, value and where it ends, or nothing.
 */
function fill(second: string, behind = ','): { t: number; v: number; to: number } | undefined {
  const bytes = new TextEncoder().encode(FIRST + second + behind);
  const f = resetFields();
  const end = scanRecord(bytes, 0, f);
  saveTemplate(0, 0, end, f);
  const to = matchTemplate(bytes, new DataView(bytes.buffer), end, 0, f);
  return to === NOT_FOUND ? undefined : { t: f[T]!, v: f[V]!, to: to - end };
}

describe('fillMould', () => {
  test.each([
    ['{"n":"current","u":"A","t":2,"v":8.05}', 2, 8.05],
    ['{"n":"current","u":"A","t":-0.25,"v":-11}', -0.25, -11],
    [FIRST, 1, 7.9],
  ])('%s fits', (text, t, v) => {
    expect(fill(text)).toEqual({ t, v, to: text.length });
    expect(fill(text, '')).toEqual({ t, v, to: text.length });
  });

  test.each([
    '{"n":"currents","u":"A","t":1,"v":7.9}',
    '{"n":"current","u":"V","t":1,"v":7.9}',
    '{"n":"current","u":"A","t":1,"s":7.9}',
    '{"n":"current","u":"A","t":1,"v":7.9,"s":1}',
    '{"n":"current","u":"A","t":1,"v":7.9e0}',
    '{"n":"current","u":"A","t":01,"v":7.9}',
    '{"n":"current","u":"A","t":1,"v":}',
    '{"n":"current","u":"A","t":1,"v":7.9',
    '{"n":"cur',
    '',
  ])('%s does not', (text) => {
    expect(fill(text, '')).toBeUndefined();
  });
});

test('noMould: nothing fits it', () => {
  const bytes = new TextEncoder().encode(FIRST);
  clearTemplate(0);
  expect(matchTemplate(bytes, new DataView(bytes.buffer), 0, 0, resetFields())).toBe(NOT_FOUND);
});
