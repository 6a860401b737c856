/**
 * A message that can't be taken is a value, not an exception: it is counted by its short name and
 * kept for a look. Its reason names the rule and the value that broke it, shortened, because the
 * sender wrote that value; the sentence is made for who reads it (./refusal-text.ts).
 */
import type { FiguresOf } from '../../../shared/text/reason-of.ts';
import type { wireReasons } from '../../../shared/text/en/refusals/wire-reasons.ts';
import type { WrittenValue } from '../../../shared/text/en/refusals/written-value.ts';
import type { Refusal, RefusalReason, WireReason } from './messages.ts';

const MAX_VALUE_CHARACTERS = 60;

export function refuse<Name extends WireReason['reason']>(
  refused: RefusalReason,
  reason: Name,
  ...[figures]: FiguresOf<(typeof wireReasons)[Name]>
): Refusal {
  // The compiler does not join a name and its figures again into a member of the union.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  return { refused, why: (figures === undefined ? { reason } : { reason, figures }) as WireReason };
}

export function isRefusal(value: object): value is Refusal {
  return 'refused' in value;
}

/** A sender's value as short text that is safe to print, whatever it is. */
export function formatValue(value: unknown): WrittenValue {
  if (typeof value === 'string') {
    return JSON.stringify(
      value.length > MAX_VALUE_CHARACTERS ? `${value.slice(0, MAX_VALUE_CHARACTERS)}…` : value,
    );
  }
  if (Array.isArray(value)) return { is: 'list' };
  return typeof value === 'object' && value !== null ? { is: 'object' } : String(value);
}
