/**
 * What people do to a well, each a plain value that is kept and replayed like a reading. The kinds are the contract's (section 6);
 * how they are written and checked: ./read-act.ts. They stand beside the card because one of them is a new card.
 */
import type { Card } from './card.ts';

export interface PinnedValues {
  pump: string;
  amps?: number;
  cutInKpa?: number;
  cutOutKpa?: number;
}

export type Act =
  | { kind: 'card-changed'; card: Card }
  | { kind: 'visit-opened'; well: string }
  | { kind: 'visit-closed'; well: string; newBaseline: boolean }
  | ({ kind: 'pinned'; well: string } & PinnedValues)
  | { kind: 'calibrated'; node: string; channel: string; points: [number, number][] }
  | { kind: 'acknowledged'; well: string; pump?: string; alarm: string }
  | { kind: 'shelved'; well: string; pump?: string; alarm: string; untilMs: number }
  | { kind: 'out-of-service'; well: string }
  | { kind: 'back-in-service'; well: string }
  | { kind: 'laid-up'; well: string; untilMs?: number }
  | { kind: 'expected'; well: string; text: string; untilMs: number }
  | { kind: 'server-away'; fromMs: number }
  | { kind: 'tick' };

/** The closed list of kinds, in the contract's order. */
export const ACT_KINDS = [
  'card-changed',
  'visit-opened',
  'visit-closed',
  'pinned',
  'calibrated',
  'acknowledged',
  'shelved',
  'out-of-service',
  'back-in-service',
  'laid-up',
  'expected',
  'server-away',
  'tick',
] as const satisfies readonly Act['kind'][];
