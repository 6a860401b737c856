/**
 * A field that people write, described once as plain data: its kind, its limits, whether it must be
 * given. The type of the value in SI (here), the reader (src/core/domain/read-fields.ts), the form,
 * the command line, the API's schema (./zod-shape.ts) and the tables of the contract
 * (./field-text.ts) all follow from it. Plain data and not zod itself, because the pages use it and
 * must stay small.
 */
import type { CurvePoint } from '../quantity/parse-curve-point.ts';
import type { Position } from '../quantity/parse-position.ts';
import type { Dimension } from '../quantity/units.ts';

/** A span of values, in SI for a quantity, and how it is said: "from 0 to 300 psi". */
export interface ValueRange {
  min: number;
  max: number;
  /** Of a table a function: asked when it is said, in the language of that moment. */
  text: string | (() => string);
}

export function rangeText({ text }: Pick<ValueRange, 'text'>): string {
  return typeof text === 'string' ? text : text();
}

type Kind =
  /** Text with a unit: "40 psi". */
  | { kind: 'quantity'; dimension: Dimension; range: ValueRange }
  | { kind: 'number'; range: ValueRange }
  | { kind: 'integer'; range: ValueRange }
  | { kind: 'flag' }
  | { kind: 'choice'; options: readonly (string | number)[] }
  /** One of the options, or a list of them. */
  | { kind: 'choices'; options: readonly string[] }
  /** One line for people. */
  | { kind: 'text'; maxCharacters: number }
  | { kind: 'choice-list'; options: readonly string[] }
  | { kind: 'lines'; maxItems: number; maxCharacters: number }
  /** A date, or as much of it as is known. */
  | { kind: 'date' }
  /** RFC 3339; Unix ms inside. */
  | { kind: 'moment' }
  /** As topics carry it. */
  | { kind: 'name' }
  | { kind: 'pump' }
  /** A node's, as `current` or `p2/current`. */
  | { kind: 'channel' }
  /** Two pairs of what was read and what was true. */
  | { kind: 'point-pairs' }
  /** Of the IANA list. */
  | { kind: 'time-zone' }
  /** Cross-section of a conductor: "12 AWG", "4 mm2". In mm2 inside. */
  | { kind: 'wire-size' }
  /** Points of a pump's curve, one a line: "10 gpm at 180 ft". */
  | { kind: 'curve' }
  /** Latitude and longitude in decimal degrees: "40.01, -105.27". */
  | { kind: 'position' }
  /** Both points of a pressure switch: "40/60". */
  | { kind: 'switch-points'; range: ValueRange }
  /** Documents by the SHA-256 of their bytes. */
  | { kind: 'documents'; maxItems: number }
  | { kind: 'document' }
  | { kind: 'object'; fields: Fields }
  /** Looked through by a rule of its own; `rule` says how it is written. */
  | { kind: 'special'; json: 'text' | 'list'; rule: string };

/**
 * `as`: the name of its value inside, where that is not its key: a quantity's ends in its unit
 * (`cutInKpa`).
 */
export type Field = Kind & { as?: string; required?: true };
export type Fields = Readonly<Record<string, Field>>;

export const quantity = <const N extends string>(dimension: Dimension, range: ValueRange, as: N) =>
  ({ kind: 'quantity', dimension, range, as }) as const;
export const number = (range: ValueRange) => ({ kind: 'number', range }) as const;
export const integer = (range: ValueRange) => ({ kind: 'integer', range }) as const;
export const choice = <const T extends string | number>(...options: T[]) =>
  ({ kind: 'choice', options }) as const;
export const choices = <const T extends string>(...options: T[]) => ({ kind: 'choices', options }) as const;
export const text = (maxCharacters: number) => ({ kind: 'text', maxCharacters }) as const;
export const lines = (limits: { maxItems: number; maxCharacters: number }) =>
  ({ kind: 'lines', ...limits }) as const;
export const choiceList = <const T extends string>(...options: T[]) =>
  ({ kind: 'choice-list', options }) as const;
export const object = <const T extends Fields>(fields: T) => ({ kind: 'object', fields }) as const;
/** `W`: as it is written; nobody reads it but the rule. */
export const special = <W>(json: 'text' | 'list', rule: string): SpecialField<W> => ({
  kind: 'special',
  json,
  rule,
});
interface SpecialField<W> {
  kind: 'special';
  json: 'text' | 'list';
  rule: string;
  /** Never there: it carries the type. */
  written?: W;
}
export const documents = (maxItems: number) => ({ kind: 'documents', maxItems }) as const;
export const moment = <const N extends string>(as: N) => ({ kind: 'moment', as }) as const;
export const switchPoints = (range: ValueRange) => ({ kind: 'switch-points', range }) as const;
export const wireSize = <const N extends string>(as: N) => ({ kind: 'wire-size', as }) as const;
export const curve = { kind: 'curve' } as const;
export const position = { kind: 'position' } as const;
export const document = { kind: 'document' } as const;
export const date = { kind: 'date' } as const;
export const name = { kind: 'name' } as const;
export const flag = { kind: 'flag' } as const;
export const pumpName = { kind: 'pump' } as const;
export const channel = { kind: 'channel' } as const;
export const pointPairs = { kind: 'point-pairs' } as const;
export const timeZone = { kind: 'time-zone' } as const;

export const required = <T extends Field>(field: T) => ({ ...field, required: true }) as const;

/** The value of a field inside, in SI. */
export type FieldValue<F> = F extends { kind: 'quantity' | 'number' | 'integer' | 'moment' | 'wire-size' }
  ? number
  : F extends { kind: 'flag' }
    ? boolean
    : F extends { kind: 'choice'; options: readonly (infer O)[] }
      ? O
      : F extends { kind: 'choices' | 'choice-list'; options: readonly (infer O)[] }
        ? O[]
        : F extends { kind: 'lines' | 'documents' }
          ? string[]
          : F extends { kind: 'switch-points' }
            ? { cutInKpa: number; cutOutKpa: number }
            : F extends { kind: 'curve' }
              ? CurvePoint[]
              : F extends { kind: 'position' }
                ? Position
                : F extends { kind: 'point-pairs' }
                  ? [number, number][]
                  : F extends { kind: 'object'; fields: infer O }
                    ? Values<O>
                    : F extends { kind: 'special'; written?: infer W }
                      ? W
                      : string;

/** The value of a field as people write it. */
type WrittenValue<F> = F extends { kind: 'quantity' | 'moment' | 'wire-size' | 'position' }
  ? string
  : F extends { kind: 'curve' }
    ? string[]
    : F extends { kind: 'choices'; options: readonly (infer O)[] }
      ? O | O[]
      : F extends { kind: 'object'; fields: infer O }
        ? Written<O>
        : FieldValue<F>;

type NameOf<F, K> = F extends { as: infer N extends string } ? N : K;

/** What is read of such fields: those that must be given, and of the others those that are. */
export type Values<T> = {
  -readonly [K in keyof T as T[K] extends { required: true } ? NameOf<T[K], K> : never]: FieldValue<T[K]>;
} & {
  -readonly [K in keyof T as T[K] extends { required: true } ? never : NameOf<T[K], K>]?: FieldValue<T[K]>;
};

/** The same as people write it. */
export type Written<T> = {
  -readonly [K in keyof T as T[K] extends { required: true } ? K : never]: WrittenValue<T[K]>;
} & {
  -readonly [K in keyof T as T[K] extends { required: true } ? never : K]?: WrittenValue<T[K]>;
};
