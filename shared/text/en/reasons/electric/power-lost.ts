/** Why `power-lost` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const powerLostReasons = {
  'node-reports-power-lost': ({ node }: { node: string }) =>
    `Node ${node} reported that its power supply failed.`,
  'voltage-gone': ({ supplyV, ratedV }: { supplyV: number; ratedV: number }, { volts }) =>
    `The pump's supply is at ${volts(supplyV)}; it should be at ${volts(ratedV)}.`,
} satisfies ReasonTexts;
