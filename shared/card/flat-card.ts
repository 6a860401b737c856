/**
 * A written card as one line a field: `pump.motor` is "1 hp". So it is compared, shown field by
 * field, typed at a command line and put into a row of a table. A list is one text, parted by "; ".
 * Nothing is checked here: that is the reader's (src/core/domain/read-card.ts).
 */

import type { Field } from '../schema/field.ts';
import { cardField } from './card-fields.ts';

/** Values by dotted key. */
export type FlatCard = Record<string, string>;

/** Every field of a card that holds something. */
export function flatten(card: Readonly<Record<string, unknown>>): FlatCard {
  const flat: FlatCard = {};
  fill(flat, card, '', 1);
  return flat;
}

/** `pumps.p1.pump.protector.restart` is the deepest field; what lies deeper is no card's. */
const MAX_DEPTH = 6;

function fill(flat: FlatCard, holder: Readonly<Record<string, unknown>>, path: string, depth: number): void {
  for (const [name, value] of Object.entries(holder)) {
    const key = `${path}${name}`;
    if (isObject(value) && depth < MAX_DEPTH) fill(flat, value, `${key}.`, depth + 1);
    else if (isObject(value)) flat[key] = '{…}';
    else if (key === 'switch' && typeof value === 'string') flat['switch.points'] = value;
    else if (value !== undefined && value !== null) flat[key] = toText(value);
  }
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function toText(value: unknown): string {
  if (typeof value === 'string') return value;
  if (!Array.isArray(value)) return JSON.stringify(value);
  const lines: unknown[] = value;
  return lines.every((line) => typeof line === 'string') ? joinLines(lines) : JSON.stringify(lines);
}

/**
 * The card of its fields. What is no number where one belongs stays text, for the reader to refuse
 * with its reason.
 */
export function unflatten(flat: Readonly<FlatCard>): Record<string, unknown> {
  const card: Record<string, unknown> = {};
  for (const [key, text] of Object.entries(flat)) {
    if (text.trim() === '') continue;
    const parts = key.split('.');
    const last = parts.pop() ?? key;
    let holder = card;
    for (const part of parts) {
      const inner = Object.hasOwn(holder, part) ? holder[part] : undefined;
      const next = isObject(inner) ? inner : {};
      setOwn(holder, part, next);
      holder = next;
    }
    setOwn(holder, last, parseFieldValue(withoutPumpPrefix(key), text));
  }
  return card;
}

/**
 * Own property whatever its name: `__proto__` is a key like another, and refused as one by the
 * reader.
 */
function setOwn(holder: object, name: string, value: unknown): void {
  Object.defineProperty(holder, name, { value, enumerable: true, configurable: true, writable: true });
}

function parseFieldValue(key: string, text: string): unknown {
  const field = cardField(key);
  if (field && holdsNumber(field) && Number.isFinite(Number(text))) return Number(text);
  if (isList(key)) return splitLines(text);
  if (field?.kind === 'choices') {
    const chosen = text.split(/[;,]/).map((one) => one.trim());
    return chosen.length === 1 ? chosen[0] : chosen;
  }
  if (key === 'reads') return parseJsonOrText(text);
  return text;
}

/** Whether a field holds several lines. */
export function isList(key: string): boolean {
  const kind = cardField(key)?.kind;
  return kind === 'lines' || kind === 'curve' || kind === 'documents';
}

function holdsNumber(field: Field): boolean {
  return (
    field.kind === 'number' ||
    field.kind === 'integer' ||
    (field.kind === 'choice' && typeof field.options[0] === 'number')
  );
}

/** `pumps.p2.pump.motor` is `pump.motor` of that pump. */
export function withoutPumpPrefix(key: string): string {
  return key.replace(/^pumps\.p\d+\./, '');
}

/** The lines of a list as one text; as JSON where a line holds what would part it. */
export function joinLines(lines: readonly string[]): string {
  const plain = lines.every((line) => line === line.trim() && line !== '' && !/[;\n]|^\[/.test(line));
  return plain ? lines.join('; ') : JSON.stringify(lines);
}

export function splitLines(text: string): string[] {
  const json = text.startsWith('[') ? parseJsonOrText(text) : undefined;
  if (Array.isArray(json) && json.every((line) => typeof line === 'string')) return json;
  return text
    .split(/[;\n]/)
    .map((line) => line.trim())
    .filter((line) => line !== '');
}

function parseJsonOrText(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}
