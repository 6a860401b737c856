/**
 * A message that can't be taken is a value, not an exception: it is counted by its reason and kept
 * for a look. The detail says the rule and the value that broke it, shortened, because the sender
 * wrote that value.
 */
import type { Refusal, RefusalReason } from './messages.ts';

const MAX_VALUE_CHARACTERS = 60;

export function refuse(refused: RefusalReason, detail: string): Refusal {
  return { refused, detail };
}

export function isRefusal(value: object): value is Refusal {
  return 'refused' in value;
}

/** A sender's value as short text that is safe to print, whatever it is. */
export function formatValue(value: unknown): string {
  if (typeof value === 'string') {
    return JSON.stringify(
      value.length > MAX_VALUE_CHARACTERS ? `${value.slice(0, MAX_VALUE_CHARACTERS)}…` : value,
    );
  }
  if (Array.isArray(value)) return 'a list';
  return typeof value === 'object' && value !== null ? 'an object' : String(value);
}
