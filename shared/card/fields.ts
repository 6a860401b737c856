/**
 * The fields of a card as a form, a list, the command line and the columns of a table go by them:
 * the table's, in the order of the words.
 */
import { CARD_SECTIONS } from '../text/en/card-sections.ts';
import type { FieldWords, SectionWords } from '../text/en/card-section-words.ts';
import { cardField } from './card-fields.ts';
import { isList, withoutPumpPrefix } from './flat-card.ts';

export interface Field extends FieldWords {
  /** Several of the choices together. */
  multiple?: true;
  /** Several lines. */
  multiline?: true;
}

export interface Section extends SectionWords {
  fields: readonly Field[];
}

export const SECTIONS: readonly Section[] = CARD_SECTIONS.map((section) => ({
  ...section,
  fields: section.fields.map(withKind),
}));

function withKind(words: FieldWords): Field {
  const kind = cardField(words.key)?.kind;
  return {
    ...words,
    ...(kind === 'choices' && { multiple: true }),
    ...(isList(words.key) && { multiline: true }),
  };
}

const ALL_FIELDS: readonly Field[] = SECTIONS.flatMap(({ fields }) => fields);
const BY_KEY = new Map(ALL_FIELDS.map((field) => [field.key, field]));
const PUMP_FIELD = /^(control$|pump\.)/;

/**
 * The field of a key, whichever pump it is of; undefined for `well`, `reads` and what no card has.
 */
export function fieldOf(key: string): Field | undefined {
  return BY_KEY.get(withoutPumpPrefix(key));
}

/** A field's key for one of several pumps, or for the only one. */
export function keyFor(field: Field, pump: string | undefined): string {
  return pump === undefined || !PUMP_FIELD.test(field.key) ? field.key : `pumps.${pump}.${field.key}`;
}

/** Whether a card may hold such a key at all. */
export function isCardKey(key: string): boolean {
  if (key === 'well' || key === 'reads' || /^reads\.[a-z0-9/-]+$/.test(key)) return true;
  const field = fieldOf(key);
  return field !== undefined && (field.key === key || PUMP_FIELD.test(field.key));
}

/** "Pump 2: motor power": what a key is called on its own, out of its section. */
export function fieldLabel(key: string): string {
  const section = SECTIONS.find(({ fields }) => fields.some((field) => field.key === withoutPumpPrefix(key)));
  const pump = /^pumps\.p(\d+)\./.exec(key)?.[1];
  if (!section) return key.startsWith('reads') ? `Readings: ${key.slice(6) || 'all'}` : key;
  const title = pump === undefined ? section.title : `${section.title} ${pump}`;
  const field = fieldOf(key);
  const label = field ? fieldName(field) : key;
  return `${title}: ${label.charAt(0).toLowerCase()}${label.slice(1)}`;
}

/** What a field is called where nobody is typing into it. */
export function fieldName({ label }: Field): string {
  return label.replace(/, one .*line$/, '');
}

/**
 * The place of a key among all, for lists in the form's order; what the form has not comes last.
 */
export function fieldOrder(key: string): number {
  const at = ALL_FIELDS.findIndex((field) => field.key === withoutPumpPrefix(key));
  return at < 0 ? ALL_FIELDS.length : at;
}
