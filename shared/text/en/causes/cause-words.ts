/** The words of every cause, in one table: a cause without words does not compile. */
import { ELECTRIC_CAUSES } from './causes-electric.ts';
import { PUMP_CAUSES } from './causes-pump.ts';
import { USE_CAUSES } from './causes-use.ts';
import { WATER_CAUSES } from './causes-water.ts';
import type { Cause } from '../alarms/kinds.ts';
import type { CauseWords } from '../alarms/text-shapes.ts';

export const CAUSE_WORDS: Record<Cause, CauseWords> = {
  ...PUMP_CAUSES,
  ...WATER_CAUSES,
  ...ELECTRIC_CAUSES,
  ...USE_CAUSES,
};
