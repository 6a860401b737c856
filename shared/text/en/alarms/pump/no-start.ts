/**
 * What is said of `no-start`. Its reasons: water is called for, by a contact or by low pressure,
 * and no current flows.
 */
import { IF_IT_TRIPPED } from '../../cautions.ts';
import type { AlarmText } from '../text-shapes.ts';

const CALLERS = { float: 'The float', timer: 'The timer', switch: 'The switch' } as const;

export const noStartText = {
  title: 'Pump should run and does not',
  means:
    'The pressure is under cut-in, or the float calls for water, and the pump draws no current. Water will run out.',
  firstStep: `Look at {breaker} from outside. ${IF_IT_TRIPPED} If it is on, or somebody turned it off, call {firm}. If the switch has a lever, read its caution first.`,
  canBeWrong:
    'A clamp that has come off looks the same: then water comes as ever. So does a cut-in on the card that is higher than the switch’s, or a gauge that reads low. A second pump without a clamp may be doing the work. If the switch closed by itself, only late, this alarm is silent for a week, unless the pressure falls 15 psi (103 kPa) under cut-in.',
  needs:
    'Current and pressure, or current and the switch’s or float’s contact. Voltage tells a lost supply from a failed motor.',
  cautions: [
    'hot-panel',
    'breaker-once',
    'after-reset',
    'low-pressure-lever',
    'stored-charge',
    'electrician',
    'lock-out',
    'well-pit',
    'flood',
    'stock-water',
  ],
  reasons: {
    'called-for-water-no-current': (
      { caller, forS }: { caller: keyof typeof CALLERS; forS: number },
      { duration },
    ) => `${CALLERS[caller]} has called for water for ${duration(forS)}, and no current flows.`,
    'under-cut-in-no-current': (
      { kpa, cutInKpa, forS }: { kpa: number; cutInKpa: number; forS: number },
      { pressure, duration },
    ) =>
      `Pressure is ${pressure(kpa)}, under the cut-in of ${pressure(cutInKpa)}. No current has flowed for ${duration(forS)}.`,
  },
} satisfies AlarmText;
