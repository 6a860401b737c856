/**
 * Where everything stands on a label, in mm. Main figures have capitals of 3.5 mm and more: seen
 * from 60 cm, an arm's length in a pump house, that is 20 minutes of arc, the height that the US
 * Nuclear Regulatory Commission prefers for labels (NUREG-0700 rev. 3, 11.4.1.5-1). Small print has
 * 2 mm, the same from 35 cm. What does not fit is left off from the end, and named on the page.
 */
import type { Label, LabelLine } from '../api/labels.ts';
import { withNonBreakingUnits } from '../text/en/names.ts';
import { MIN_MODULE_MM, makeQrCode, QUIET_ZONE_MODULES, type Encode, type QrCode } from './qr.ts';
import type { Size } from './sheets.ts';
import { texts } from './texts.ts';
import { limitRows, fitOneRow, wrap, type TextStyle, type MeasureWidth } from './wrap.ts';

export interface PlacedText extends TextStyle {
  x: number;
  /** Baseline. */
  y: number;
  text: string;
  alignEnd?: boolean;
}

export interface LabelLayout {
  texts: PlacedText[];
  /** Horizontal lines: under the title, and to write on. */
  rules: { x: number; y: number; w: number; thick: number }[];
  qr?: QrCode & { x: number; y: number };
  /** Names of facts that did not fit; blanks that did not are no loss. */
  omitted: string[];
}

/**
 * The font with the lowest capitals of those asked for has them at 0.688 of its size (measured:
 * tests/browser/labels.test.ts).
 */
export const CAPITAL_HEIGHT_RATIO = 0.688;
const MAIN = { size: 5.2, bold: true } as const;
const SMALL = { size: 3 } as const;
const SMALL_BOLD = { size: 3, bold: true } as const;
const MAIN_ROW = 6;
const SMALL_ROW = 3.6;
/** To write on by hand. */
const BLANK_ROW = 5.4;
const MAIN_BLANK_ROW = 8;
const PAD = 3;
const TITLE_H = 7.2;
const GAP = 3;
const CODE_CAPTION_H = 2.6;
/** Of the width: the facts are for eyes first. */
const MAX_CODE_WIDTH_RATIO = 0.35;
/** The label that the sizes above are made for; larger ones are drawn larger. */
const BASE_SIZE: Size = { w: 95, h: 64 };

interface Block {
  line: LabelLine;
  h: number;
  draw: (x: number, y: number) => Omit<LabelLayout, 'omitted' | 'qr'>;
}

/** What a layout asks for: how wide text is, and codes. */
export interface LabelTools {
  widthOf: MeasureWidth;
  encode: Encode;
}

/** `wellName` as people write it. */
export function layOutLabel(
  label: Label,
  wellName: string,
  size: Size,
  tools: LabelTools,
): LabelLayout & { scale: number } {
  const scale = Math.max(1, Math.min(size.w / BASE_SIZE.w, size.h / BASE_SIZE.h));
  const inner = { w: size.w / scale, h: size.h / scale };
  return { ...layOutAtBaseSize(label, wellName, inner, tools), scale };
}

function layOutAtBaseSize(label: Label, wellName: string, size: Size, tools: LabelTools): LabelLayout {
  const { widthOf } = tools;
  const { code, caution, column } = frameOf(label, size, tools);
  const width = size.w - 2 * PAD;
  const room = { w: column, h: caution.top - 1.2 - BODY_TOP };
  const blocks = label.lines.map((line) => blockOf(keepUnitsTogether(line), room, widthOf));
  const { kept, omitted } = fitBlocks(blocks, room.h);
  const drawn = stackBlocks(kept, BODY_TOP, BODY_TOP + room.h);
  return {
    texts: [
      ...titleTexts(label, wellName, width, widthOf),
      ...drawn.texts,
      ...caution.rows.map((text, i) => ({ ...SMALL, x: PAD, y: caution.top + i * SMALL_ROW + 2.8, text })),
      ...(code ? [code.caption] : []),
    ],
    rules: [
      { x: PAD, y: PAD + 5.6, w: width, thick: 0.4 },
      { x: PAD, y: caution.top - 0.5, w: caution.w, thick: 0.2 },
      ...drawn.rules,
    ],
    ...(code && { qr: { ...code.qr, x: code.x, y: code.y } }),
    omitted,
  };
}

const BODY_TOP = PAD + TITLE_H;

interface Frame {
  code?: { qr: QrCode; x: number; y: number; caption: PlacedText };
  caution: { rows: string[]; top: number; w: number };
  /** Width of the column of facts. */
  column: number;
}

/**
 * The code at the right, the caution at the foot: across the whole label where there is room under
 * the code.
 */
function frameOf(label: Label, size: Size, { widthOf, encode }: LabelTools): Frame {
  const width = size.w - 2 * PAD;
  const bodyH = size.h - PAD - BODY_TOP;
  const maxMm = Math.min(
    MAX_CODE_WIDTH_RATIO * size.w,
    bodyH - 2 * QUIET_ZONE_MODULES * MIN_MODULE_MM - CODE_CAPTION_H,
  );
  const qr = makeQrCode(label.plainText, maxMm, encode);
  const code = qr && codeAt(label, qr, size.w - PAD);
  const codeW = code ? Math.max(qr.size * qr.moduleMm, widthOf(code.caption.text, code.caption)) + GAP : 0;
  const codeBottom = code ? code.caption.y + 0.7 : BODY_TOP;
  const wide = wrap(label.caution, SMALL, width, widthOf);
  const below = size.h - PAD - codeBottom >= wide.length * SMALL_ROW + 1;
  const rows = below ? wide : wrap(label.caution, SMALL, width - codeW, widthOf);
  return {
    ...(code && { code }),
    caution: { rows, top: size.h - PAD - rows.length * SMALL_ROW, w: below ? width : width - codeW },
    column: width - codeW,
  };
}

/** Its light border keeps the title and its own caption away. */
function codeAt({ madeOn }: Label, qr: QrCode, right: number): NonNullable<Frame['code']> {
  const side = qr.size * qr.moduleMm;
  const light = QUIET_ZONE_MODULES * qr.moduleMm;
  const y = BODY_TOP + light;
  const caption = {
    size: 2.4,
    x: right,
    y: y + side + light + 1.9,
    text: texts().codeCaption(madeOn),
    alignEnd: true,
  };
  return { qr, x: right - side, y, caption };
}

function titleTexts(
  { title, location }: Label,
  wellName: string,
  width: number,
  widthOf: MeasureWidth,
): PlacedText[] {
  const y = PAD + 4;
  const room = width - widthOf(title, MAIN) - GAP;
  const right = [location === undefined ? wellName : `${wellName} · ${location}`, wellName].find(
    (text) => widthOf(text, SMALL) <= room,
  );
  return [
    { ...MAIN, x: PAD, y, text: fitOneRow(title, MAIN, width, widthOf) },
    ...(right === undefined ? [] : [{ ...SMALL, x: PAD + width, y, text: right, alignEnd: true }]),
  ];
}

/**
 * Lines stand in the order of what they are worth, blanks to fill in too: the last go first, and
 * one always stays.
 */
function fitBlocks(blocks: readonly Block[], available: number): { kept: Block[]; omitted: string[] } {
  const kept = [...blocks];
  const omitted: string[] = [];
  const height = (): number => kept.reduce((sum, { h }) => sum + h, 0);
  while (kept.length > 1 && height() > available) {
    const last = kept.pop();
    if (last?.line.value !== undefined) omitted.unshift(last.line.name);
  }
  return { kept, omitted };
}

/** One under the other, with what room is left shared out between them, up to 1.5 mm each. */
function stackBlocks(
  blocks: readonly Block[],
  top: number,
  bottom: number,
): Pick<LabelLayout, 'texts' | 'rules'> {
  const spare = bottom - top - blocks.reduce((sum, { h }) => sum + h, 0);
  const between = Math.max(0, Math.min(1.5, spare / Math.max(1, blocks.length)));
  let y = top;
  const drawn = blocks.map((block) => {
    const one = block.draw(PAD, y);
    y += block.h + between;
    return one;
  });
  return { texts: drawn.flatMap(({ texts }) => texts), rules: drawn.flatMap(({ rules }) => rules) };
}

/** Figures stay with their units. */
function keepUnitsTogether({ value, detail, ...line }: LabelLine): LabelLine {
  return {
    ...line,
    ...(value !== undefined && { value: withNonBreakingUnits(value) }),
    ...(detail !== undefined && { detail: withNonBreakingUnits(detail) }),
  };
}

/** `room` is the column of the facts: not even one line may be higher than it. */
function blockOf(line: LabelLine, room: Size, widthOf: MeasureWidth): Block {
  if (line.value === undefined) return blankBlock(line, room, widthOf);
  return line.prominent
    ? mainBlock(line, line.value, room, widthOf)
    : smallBlock(line, line.value, room, widthOf);
}

/** A figure is a word or two; more is a slip of the pen and is cut. */
const MAX_MAIN_ROWS = 2;
const MAX_SMALL_ROWS = 4;

/** The figure large, its name behind it, and what was measured beneath. */
function mainBlock(line: LabelLine, value: string, room: Size, widthOf: MeasureWidth): Block {
  const rows = limitRows(wrap(value, MAIN, room.w, widthOf), MAX_MAIN_ROWS);
  const name = fitOneRow(line.name, SMALL, room.w, widthOf);
  const behind = widthOf(rows.at(-1) ?? '', MAIN) + 1.5;
  const nameFits = behind + widthOf(name, SMALL) <= room.w;
  const maxRows = Math.max(
    0,
    Math.min(MAX_SMALL_ROWS, Math.floor((room.h - rows.length * MAIN_ROW) / SMALL_ROW)),
  );
  const beside = line.detail === undefined ? [] : wrap(line.detail, SMALL, room.w, widthOf);
  const under = limitRows([...(nameFits ? [] : [name]), ...beside], maxRows);
  return {
    line,
    h: rows.length * MAIN_ROW + under.length * SMALL_ROW,
    draw: (x, y) => ({
      texts: [
        ...rows.map((text, i) => ({ ...MAIN, x, y: y + i * MAIN_ROW + 4.6, text })),
        ...(nameFits
          ? [{ ...SMALL, x: x + behind, y: y + (rows.length - 1) * MAIN_ROW + 4.6, text: name }]
          : []),
        ...under.map((text, i) => ({
          ...SMALL,
          x,
          y: y + rows.length * MAIN_ROW + i * SMALL_ROW + 2.6,
          text,
        })),
      ],
      rules: [],
    }),
  };
}

function smallBlock(line: LabelLine, value: string, room: Size, widthOf: MeasureWidth): Block {
  const name = fitOneRow(capital(line.name), SMALL, room.w, widthOf);
  const behind = widthOf(name, SMALL) + 1.2;
  const text = line.detail === undefined ? value : `${value}, ${line.detail}`;
  const [first = '', ...more] = limitRows(wrap(text, SMALL_BOLD, room.w, widthOf, behind), MAX_SMALL_ROWS);
  return {
    line,
    h: (1 + more.length) * SMALL_ROW,
    draw: (x, y) => ({
      texts: [
        { ...SMALL, x, y: y + 2.7, text: name },
        ...(first === '' ? [] : [{ ...SMALL_BOLD, x: x + behind, y: y + 2.7, text: first }]),
        ...more.map((row, i) => ({ ...SMALL_BOLD, x, y: y + (i + 1) * SMALL_ROW + 2.7, text: row })),
      ],
      rules: [],
    }),
  };
}

/** The least that a hand can write a figure on. */
const MIN_BLANK_W = 12;

/** Its name, and a rule to write on; what a main figure is to be like stands beneath it. */
function blankBlock(line: LabelLine, room: Size, widthOf: MeasureWidth): Block {
  const name = fitOneRow(capital(line.name), SMALL, room.w - MIN_BLANK_W - 1.5, widthOf);
  const row = line.prominent ? MAIN_BLANK_ROW : BLANK_ROW;
  const from = widthOf(name, SMALL) + 1.5;
  const under = line.detail === undefined ? [] : wrap(line.detail, SMALL, room.w, widthOf);
  const shown = limitRows(under, Math.max(0, Math.floor((room.h - row) / SMALL_ROW)));
  return {
    line,
    h: row + shown.length * SMALL_ROW,
    draw: (x, y) => ({
      texts: [
        { ...SMALL, x, y: y + row - 1.2, text: name },
        ...shown.map((text, i) => ({ ...SMALL, x, y: y + row + i * SMALL_ROW + 2.6, text })),
      ],
      rules: [{ x: x + from, y: y + row - 1, w: room.w - from, thick: 0.2 }],
    }),
  };
}

function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}
