/**
 * Labels with long words, many facts and none, at every size: nothing may stand outside, or on
 * something else.
 */
import { encode } from 'uqr';
import { describe, expect, test } from 'vitest';
import {
  CAPITAL_HEIGHT_RATIO,
  layOutLabel,
  type LabelLayout,
  type LabelTools,
} from '../../../shared/labels/layout.ts';
import { SHEETS } from '../../../shared/labels/sheets.ts';
import { wrap, type MeasureWidth } from '../../../shared/labels/wrap.ts';
import type { Label, LabelLine } from '../../../shared/api/labels.ts';
import { LABEL_CAUTIONS, LABEL_KINDS } from '../../../shared/text/en/label-words.ts';
import { sheetName } from '../../../shared/text/en/sheet-names.ts';

/** Wider than Arial's mean of about half its size. */
const widthOf: MeasureWidth = (text, { size, bold }) => text.length * size * (bold ? 0.58 : 0.53);

const TOOLS: LabelTools = { widthOf, encode: (text) => encode(text, { ecc: 'M', border: 0 }) };

function labelOf(lines: LabelLine[], more: Partial<Label> = {}): Label {
  return {
    id: 'tank',
    kind: 'tank',
    title: 'Well pump breaker, pump 2',
    well: 'barn',
    caution: LABEL_CAUTIONS.tank,
    lines,
    plainText: ['barn: Pressure tank', ...lines.map(({ name, value }) => `${name}: ${value ?? ''}`)],
    madeOn: '2026-07-14',
    ...more,
  };
}

const main = (name: string, value?: string, beside?: string): LabelLine => ({
  name,
  prominent: true,
  ...(value !== undefined && { value }),
  ...(beside !== undefined && { detail: beside }),
});
const small = (name: string, value?: string): LabelLine => ({ name, ...(value !== undefined && { value }) });

const LONG =
  'Behind the second door on the left, over the old cistern, where the ladder used to stand before the flood';
const CASES: [string, Label][] = [
  [
    'blanks alone',
    labelOf([
      main('precharge', undefined, 'with the tank empty of water and the pump off'),
      main('tank'),
      small('relief valve'),
      small('installed'),
    ]),
  ],
  [
    'many facts',
    labelOf(
      [...Array(4)]
        .map((_, i) => main(`figure ${i}`, `${i}40/60 psi`, 'measured 41/59 psi'))
        .concat([...Array(9)].map((_, i) => small(`fact ${i}`, 'main panel in the hall'))),
    ),
  ],
  [
    'long words',
    labelOf(
      [main('motor', LONG, LONG), main('x'.repeat(90), 'y'.repeat(200)), small(LONG, LONG), small(LONG)],
      { location: LONG },
    ),
  ],
  ['nothing at all', labelOf([], { plainText: [] })],
];

interface Box {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

function boxesOf({ texts }: LabelLayout): Box[] {
  return texts.map(({ x, y, text, alignEnd, ...style }) => {
    const w = widthOf(text, style);
    const left = alignEnd ? x - w : x;
    return { left, right: left + w, top: y - style.size * 0.73, bottom: y + style.size * 0.22 };
  });
}

const over = (a: Box, b: Box): boolean =>
  Math.min(a.right, b.right) - Math.max(a.left, b.left) > 0.01 &&
  Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.15;

describe.each(SHEETS.map((sheet) => [sheetName(sheet), sheet.label] as const))('on %s', (_name, size) => {
  test.each(CASES)('%s: all stands inside, and nothing on anything else', (_what, label) => {
    const drawing = layOutLabel(label, 'Barn', size, TOOLS);
    const { qr, scale, rules } = drawing;
    const [w, h] = [size.w / scale, size.h / scale];
    const boxes = boxesOf(drawing);
    for (const box of boxes) {
      expect(box.left).toBeGreaterThan(2);
      expect(box.top).toBeGreaterThan(2);
      expect(box.right).toBeLessThan(w - 2);
      expect(box.bottom).toBeLessThan(h - 2);
    }
    boxes.forEach((a, i) => boxes.slice(i + 1).forEach((b) => expect(over(a, b)).toBe(false)));
    if (!qr) return;
    const light = qr.moduleMm * 4;
    const side = qr.size * qr.moduleMm;
    const code = {
      left: qr.x - light,
      right: qr.x + side + light,
      top: qr.y - light,
      bottom: qr.y + side + light,
    };
    expect(code.right).toBeLessThanOrEqual(w);
    expect(boxes.filter((box) => over(box, code))).toEqual([]);
    expect(
      rules.filter(({ x, y, w: long, thick }) =>
        over({ left: x, right: x + long, top: y, bottom: y + thick }, code),
      ),
    ).toEqual([]);
  });

  test('main figures have capitals of 3.5 mm, and the caution and its first fact are always there', () => {
    const label = CASES[1]![1];
    const { texts, scale } = layOutLabel(label, 'Barn', size, TOOLS);
    const figure = texts.find(({ text }) => text.replaceAll('\u00a0', ' ') === '040/60 psi')!;
    expect(figure.size * scale * CAPITAL_HEIGHT_RATIO).toBeGreaterThanOrEqual(3.5);
    const all = texts.map(({ text }) => text).join(' ');
    for (const word of label.caution.split(' ')) expect(all).toContain(word);
    for (const { size: mm } of texts) expect(mm * scale * CAPITAL_HEIGHT_RATIO).toBeGreaterThanOrEqual(1.6);
  });
});

test('what does not fit is left off from the end, and named where it is a fact', () => {
  const lines = [
    main('a', '1'),
    small('b'),
    ...[...Array(20)].map((_, i) => small(`f${i}`, 'x')),
    small('last'),
  ];
  const { omitted, texts } = layOutLabel(labelOf(lines), 'Barn', { w: 101.6, h: 50.8 }, TOOLS);
  const shown = texts.map(({ text }) => text);
  expect(shown).toContain('B');
  expect(shown).toContain('F0');
  expect(omitted.at(-1)).toBe('f19');
  expect(omitted).not.toContain('last');
  expect(shown).not.toContain(`F${omitted[0]!.slice(1)}`);
});

test('every caution takes two rows at the most on a label of 99.1 mm', () => {
  for (const kind of LABEL_KINDS)
    expect([
      kind,
      wrap(LABEL_CAUTIONS[kind], { size: 3 }, 93.1, (text, { size }) => text.length * size * 0.48).length,
    ]).toEqual([kind, 2]);
});

describe('wrap', () => {
  const each: MeasureWidth = (text) => text.length;
  test.each([
    ['one two three', 7, 0, ['one two', 'three']],
    ['one two three', 7, 4, ['one', 'two', 'three']],
    ['onetwothree', 4, 0, ['onet', 'woth', 'ree']],
    ['onetwothree', 4, 3, ['', 'onet', 'woth', 'ree']],
    ['10\u00a0psi high', 6, 0, ['10\u00a0psi', 'high']],
    ['', 5, 0, []],
  ])('%j at %d, the first row %d in', (text, width, indent, rows) => {
    expect(wrap(text, { size: 1 }, width, each, indent)).toEqual(rows);
  });
});
