/**
 * Causes that look alike from current and pressure alone (contract, section 6). No honest reader
 * can tell them apart without one more measurement or a person's look, so they share their weight
 * and are named together, with what would part them.
 */
import type { Caution } from '../cautions.ts';
import type { Cause } from '../alarms/kinds.ts';

export interface LookAlikes {
  causes: readonly Cause[];
  /** What tells them apart, to stand after "To tell which:". */
  distinguishedBy: string;
  /** What must be said along with it. */
  cautions?: readonly Caution[];
}

export const LOOK_ALIKES: readonly LookAlikes[] = [
  {
    causes: ['power-lost', 'breaker-open'],
    distinguishedBy: 'measure the voltage at the pump, or see whether others have power',
  },
  {
    causes: ['check-valve', 'drop-pipe-leak', 'pitless-leak'],
    distinguishedBy:
      'have a pump contractor look into the well; all three leak with the house valve closed, and so does a yard hydrant or a buried line ahead of it',
    cautions: ['well-cap', 'well-pit'],
  },
  { causes: ['leak', 'open-tap'], distinguishedBy: 'walk round the taps, toilets and troughs' },
  {
    causes: ['tank-air-lost', 'bladder-burst'],
    distinguishedBy: 'have the tank recharged and see whether it holds',
    cautions: ['precharge', 'tank-pressure', 'well-pit'],
  },
  {
    causes: ['stuck-rotor', 'failing-capacitor'],
    distinguishedBy: 'have the start recorded at a high rate, or the control box checked',
  },
  {
    causes: ['switch-out-of-set', 'transducer-fault'],
    distinguishedBy: 'compare the reading with the dial at the tank',
    cautions: ['well-pit'],
  },
];

/** The group that a cause belongs to; undefined where it can be told alone. */
export function lookAlikesOf(cause: Cause): LookAlikes | undefined {
  return LOOK_ALIKES.find(({ causes }) => causes.includes(cause));
}
