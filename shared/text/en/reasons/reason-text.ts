/**
 * The shape of a reason's text: a function from its figures (SI, the unit in the name) and a format
 * to one sentence or two. A kind's file names its reasons and, in the parameters, their figures:
 * name, figures and words of a reason stand together.
 */
import type { ReasonFormat } from './format.ts';

export type FigureValue = number | string | boolean | number[] | string[];
/** The figures of any reason, where which one it is does not matter. */
export type Figures = Record<string, FigureValue>;

/**
 * One kind's reasons. Names are unique over all kinds (./reasons.ts). Figures are `never` here, so
 * that each text may ask for its own.
 */
export type ReasonTexts = Record<string, (figures: never, format: ReasonFormat) => string>;
