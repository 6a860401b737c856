/**
 * Which alarm makes sense of which kind of control and supply (shared/alarms/catalogue.ts). What
 * does not apply is never asked; what applies in a form of its own is told apart in the watch's own
 * file.
 */
import { CATALOGUE, type AlarmKind } from '../../../shared/alarms/catalogue.ts';
import type { KindRow } from '../../../shared/alarms/kind-row.ts';
import type { PumpCard } from '../domain/card.ts';

/** Is this alarm asked of a pump with this control and supply? */
export function appliesTo(
  alarm: AlarmKind,
  { control, drive }: Pick<PumpCard, 'control' | 'drive'>,
): boolean {
  const row: KindRow = CATALOGUE[alarm];
  return row.controls[control] !== 'none' && !(drive === 'solar' && row.needsSteadySupply === true);
}

/** Is it asked of a well: does it make sense of any of its pumps? */
export function appliesToWell(alarm: AlarmKind, pumps: readonly { card: PumpCard }[]): boolean {
  return pumps.some(({ card }) => appliesTo(alarm, card));
}
