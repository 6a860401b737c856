/**
 * How wide text is in Arial and in fonts of the same widths, where no browser can be asked. In
 * thousandths of the font size: the advances of Liberation Sans 2, which has Arial's, read from its
 * `hmtx` table. Letters that are not here are taken for wide ones, so that a row is broken too
 * early rather than printed over its edge.
 */
import type { MeasureWidth } from './wrap.ts';

type Widths = readonly (readonly [thousandths: number, letters: string])[];

const REGULAR: Widths = [
  [191, "'"],
  [222, 'ijl‘’'],
  [260, '|¦'],
  [278, ' !,./:;I[\\]ft\u00a0·ÌÍÎÏìíîï'],
  [333, '()-`r¡¨²³´¸¹“”'],
  [334, '{}'],
  [350, '•'],
  [355, '"'],
  [365, 'º'],
  [370, 'ª'],
  [389, '*'],
  [400, '°'],
  [469, '^'],
  [500, 'Jcksvxyzçýÿ'],
  [537, '¶'],
  [549, '±÷≤≥'],
  [552, '¯'],
  [556, '#$0123456789?L_abdeghnopqu¢£¤¥§«»àáâãäåèéêëðñòóôõöùúûüþ–'],
  [576, 'µ'],
  [584, '+<=>~¬×'],
  [611, 'FTZ¿ßø'],
  [667, '&ABEKPSVXYÀÁÂÃÄÅÈÉÊËÝÞ'],
  [722, 'CDHNRUwÇÐÑÙÚÛÜ'],
  [737, '©®'],
  [748, 'Ω'],
  [778, 'GOQÒÓÔÕÖØ'],
  [833, 'Mm'],
  [834, '¼½¾'],
  [889, '%æ'],
  [944, 'W'],
  [1000, 'Æ—…'],
  [1015, '@'],
];

const BOLD: Widths = [
  [238, "'"],
  [278, ' ,./I\\ijl\u00a0·ÌÍÎÏìíîï‘’'],
  [280, '|¦'],
  [333, '!()-:;[]`ft¡¨²³´¸¹'],
  [350, '•'],
  [365, 'º'],
  [370, 'ª'],
  [389, '*r{}'],
  [400, '°'],
  [474, '"'],
  [500, 'z“”'],
  [549, '±÷≤≥'],
  [552, '¯'],
  [556, '#$0123456789J_aceksvxy¢£¤¥§«¶»àáâãäåçèéêëýÿ–'],
  [576, 'µ'],
  [584, '+<=>^~¬×'],
  [611, '?FLTZbdghnopqu¿ßðñòóôõöøùúûüþ'],
  [667, 'EPSVXYÈÉÊËÝÞ'],
  [722, '&ABCDHKNRUÀÁÂÃÄÅÇÐÑÙÚÛÜ'],
  [737, '©®'],
  [778, 'GOQwÒÓÔÕÖØ'],
  [802, 'Ω'],
  [833, 'M'],
  [834, '¼½¾'],
  [889, '%mæ'],
  [944, 'W'],
  [975, '@'],
  [1000, 'Æ—…'],
];

/** An "m", about. */
const DEFAULT_WIDTH = 0.85;

function widthMap(widths: Widths): Map<string, number> {
  return new Map(
    widths.flatMap(([width, letters]) => Array.from(letters).map((letter) => [letter, width / 1000])),
  );
}

const [REGULAR_WIDTHS, BOLD_WIDTHS] = [widthMap(REGULAR), widthMap(BOLD)];

/** Kerning is left out: it makes text narrower, and by little. */
export const arialWidth: MeasureWidth = (text, { size, bold }) => {
  const widths = bold ? BOLD_WIDTHS : REGULAR_WIDTHS;
  return Array.from(text).reduce((sum, letter) => sum + (widths.get(letter) ?? DEFAULT_WIDTH), 0) * size;
};
