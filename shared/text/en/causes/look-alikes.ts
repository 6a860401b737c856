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
    distinguishedBy:
      'look whether others have power and whether the breaker stands at on; else have an electrician or pump contractor measure the voltage',
    cautions: ['hot-panel', 'breaker-once', 'after-reset', 'electrician'],
  },
  {
    causes: ['check-valve', 'drop-pipe-leak', 'pitless-leak'],
    distinguishedBy:
      'have a pump contractor look into the well; all three leak with the house valve closed, and so does a yard hydrant or a buried line ahead of it',
    cautions: ['well-cap', 'well-pit'],
  },
  { causes: ['leak', 'open-tap'], distinguishedBy: 'walk around the taps, toilets and troughs' },
  {
    causes: ['tank-air-lost', 'bladder-burst'],
    distinguishedBy: 'have a pump contractor recharge the tank, and see whether it holds',
    cautions: ['precharge', 'tank-pressure', 'lock-out', 'well-pit'],
  },
  {
    causes: ['stuck-rotor', 'failing-capacitor'],
    distinguishedBy:
      'have the start recorded at a high rate, or have an electrician or pump contractor check the control box',
    cautions: ['stored-charge', 'electrician', 'lock-out'],
  },
  {
    causes: ['switch-out-of-set', 'transducer-fault'],
    distinguishedBy:
      'compare the reading with the gauge at the tank, but not while the pressure is over cut-out',
    cautions: ['well-pit'],
  },
];

/** The group that a cause belongs to; undefined where it can be told alone. */
export function lookAlikesOf(cause: Cause): LookAlikes | undefined {
  return LOOK_ALIKES.find(({ causes }) => causes.includes(cause));
}

/** The groups of which several causes are named, in the order of the causes. */
export function lookAlikesAmong(causes: readonly Cause[]): LookAlikes[] {
  const groups = new Set(causes.map(lookAlikesOf));
  return [...groups].filter(
    (group): group is LookAlikes =>
      group !== undefined && group.causes.filter((one) => causes.includes(one)).length > 1,
  );
}
