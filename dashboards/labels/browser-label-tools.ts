/** What a label's layout asks of the browser: real widths of text, and codes. */
import { encode } from 'uqr';
import type { LabelTools } from '../../shared/labels/layout.ts';
import { textWidth } from './text-width.ts';

export const LABEL_TOOLS: LabelTools = {
  widthOf: textWidth,
  encode: (text) => encode(text, { ecc: 'M', border: 0 }),
};
