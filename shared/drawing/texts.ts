/** The texts of the section drawing. */
import { drawingTexts } from '../text/en/drawing.ts';
import { localized } from '../text/localized.ts';

export const texts = localized({ en: drawingTexts });
