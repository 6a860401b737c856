/**
 * What people do to a well, each a plain value that is kept and replayed like a reading. The kinds
 * and their fields are the contract's (section 6; the table: shared/acts/act-fields.ts); how they
 * are checked: ./read-act.ts. They stand beside the card because one of them is a new card.
 */
import { ACT_FIELDS, type ActValues } from '../../../shared/acts/act-fields.ts';
import type { Card } from './card.ts';

type ActOf<K extends ActValues['kind']> = Extract<ActValues, { kind: K }>;

/**
 * `visit-closed` and `pinned` hold what is meant where it is not said: no new baseline, and the
 * first pump.
 */
export type Act =
  | { kind: 'card-changed'; card: Card }
  | (ActOf<'visit-closed'> & { newBaseline: boolean })
  | (ActOf<'pinned'> & { pump: string })
  | Exclude<ActValues, { kind: 'visit-closed' | 'pinned' }>;

// The keys of a table have no type of their own.
// oxlint-disable-next-line typescript/no-unsafe-type-assertion
const FIELD_KINDS = Object.keys(ACT_FIELDS) as ActValues['kind'][];

/** The closed list of kinds, in the contract's order. */
export const ACT_KINDS: readonly Act['kind'][] = ['card-changed', ...FIELD_KINDS];
