/**
 * Which alarm makes sense of which kind of control (shared/alarms/catalogue.ts). What does not
 * apply is never asked; what applies in a form of its own is told apart in the watch's own file.
 */
import { CATALOGUE, type AlarmKind } from '../../../shared/alarms/catalogue.ts';
import type { Control, PumpCard } from '../domain/card.ts';

/** Is this alarm asked of a pump with this control? */
export function appliesTo(alarm: AlarmKind, control: Control): boolean {
  return CATALOGUE[alarm].controls[control] !== 'none';
}

/** Is it asked of a well: does it make sense of any of its pumps? */
export function appliesToWell(alarm: AlarmKind, pumps: readonly { card: PumpCard }[]): boolean {
  return pumps.some(({ card }) => appliesTo(alarm, card.control));
}
