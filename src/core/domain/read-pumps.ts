/**
 * The pumps of a card: one under `pump` and `control`, or several under `pumps` ("p1", "p2" …
 * without a hole, for a pump's place is its channels' prefix). `control` is a pressure switch where
 * the card does not say.
 */
import { CONTROL, keysIn, PROTECTOR, PUMP } from '../../../shared/card/card-fields.ts';
import type { PumpCard } from './card.ts';
import { MAX_PUMPS } from './channels.ts';
import { addIssue, childContext, fieldValue } from './parse-context.ts';
import type { ParseContext } from './parse-context.ts';
import { readFields } from './read-fields.ts';
import { texts } from './texts.ts';

export interface PumpContext {
  id: string;
  /**
   * What has `control` and `pump`: the card itself or an entry of `pumps`; undefined where that is
   * no object.
   */
  holder: ParseContext | undefined;
  pump: ParseContext | undefined;
}

/** At least one pump; problems are noted in `card`. */
export function pumpContexts(card: ParseContext): PumpContext[] {
  const several = childContext(card, 'pumps', undefined);
  if (!several) return [pumpContext('p1', card)];
  for (const key of ['control', 'pump']) {
    if (fieldValue(card, key) !== undefined) addIssue(card, key, texts().mustNotStandBesidePumps);
  }
  const ids = Object.keys(several.fields).sort((a, b) => Number(a.slice(1)) - Number(b.slice(1)));
  if (ids.length === 0) addIssue(card, 'pumps', texts().mustHoldAPump);
  ids.forEach((id, at) => {
    if (id !== `p${at + 1}` || at >= MAX_PUMPS) {
      addIssue(several, id, texts().mustBeCalledInOrder(MAX_PUMPS), ids.join(', '));
    }
  });
  return ids.map((id) => pumpContext(id, childContext(several, id, ['control', 'pump'])));
}

function pumpContext(id: string, holder: ParseContext | undefined): PumpContext {
  const pump = holder && childContext(holder, 'pump', keysIn('pump'));
  if (pump) moveDriveModel(pump);
  return { id, holder, pump };
}

/**
 * Cards of earlier versions have the drive's maker, model and setting under `drive`, which now says
 * what feeds the pump. Such a card is still read, and nothing of it is lost.
 */
function moveDriveModel(pump: ParseContext): void {
  const { drive, ...others } = pump.fields;
  const isOther = typeof drive === 'string' && !PUMP.drive.options.some((option) => option === drive);
  if (isOther && !Object.hasOwn(others, 'driveModel')) pump.fields = { ...others, driveModel: drive };
}

export function readPump({ id, holder, pump }: PumpContext): PumpCard {
  const { control = 'pressure-switch' } = holder ? readFields(holder, CONTROL) : {};
  if (!pump) return { id, control };
  const protector = childContext(pump, 'protector', keysIn('pump.protector'));
  return { id, control, ...readFields(pump, PUMP), ...(protector && readFields(protector, PROTECTOR)) };
}
