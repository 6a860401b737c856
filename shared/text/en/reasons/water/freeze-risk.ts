/** Why `freeze-risk` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const freezeRiskReasons = {
  'air-near-freezing': ({ airC, isFalling }: { airC: number; isFalling: boolean }, { temperature }) =>
    `The air at the pump is ${temperature(airC)}${isFalling ? ' and falling' : ''}. Water in pipes and in the switch's line freezes at ${temperature(0)}.`,
} satisfies ReasonTexts;
