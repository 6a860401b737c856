/**
 * Fields as the API describes them: a zod shape of what people write. What is wrong with a value is
 * said by the reader, in better words.
 */
import { z } from 'zod';
import { MAX_CURVE_POINTS } from '../card/limits.ts';
import { fieldText } from './field-text.ts';
import type { Field, Fields } from './field.ts';

export function fieldShape(field: Field): z.ZodType {
  return kindShape(field).describe(fieldText(field));
}

function kindShape(field: Field): z.ZodType {
  switch (field.kind) {
    case 'number':
      return z.number().min(field.range.min).max(field.range.max);
    case 'integer':
      return z.int().min(field.range.min).max(field.range.max);
    case 'flag':
      return z.boolean();
    case 'choice':
      return z.literal([...field.options]);
    case 'choices':
      return z.union([z.enum(field.options), z.array(z.enum(field.options))]);
    case 'choice-list':
      return z.array(z.enum(field.options));
    case 'text':
      return z.string().min(1).max(field.maxCharacters);
    case 'lines':
      return z.array(z.string().min(1).max(field.maxCharacters)).max(field.maxItems);
    case 'moment':
      return z.iso.datetime({ offset: true });
    case 'name':
      return z.string().regex(/^[a-z0-9-]{1,40}$/);
    case 'pump':
      return z.string().regex(/^p([1-9]|1[0-5])$/);
    case 'documents':
      return z.array(z.string().regex(/^[0-9a-f]{64}$/)).max(field.maxItems);
    case 'point-pairs':
      return z.array(z.tuple([z.number(), z.number()])).length(2);
    case 'document':
      return z.string().regex(/^[0-9a-f]{64}$/);
    case 'object':
      return z.strictObject(shapesOf(field.fields));
    case 'special':
      return field.json === 'text' ? z.string() : z.array(z.looseObject({}));
    case 'curve':
      return z.array(z.string()).max(MAX_CURVE_POINTS);
    case 'channel':
    case 'quantity':
    case 'wire-size':
    case 'position':
    case 'date':
    case 'time-zone':
    case 'switch-points':
      return z.string();
    default:
      return field satisfies never;
  }
}

/**
 * What a reader looks through and refuses in better words: here is only said by which shape it is
 * described.
 */
export function unread(describedBy: string) {
  return z.record(z.string(), z.unknown()).meta({ describedBy });
}

/** The shapes of a table's fields, for `z.strictObject`. */
export function shapesOf(fields: Fields): Record<string, z.ZodType> {
  return Object.fromEntries(
    Object.entries(fields).map(([key, field]) => {
      const shape = fieldShape(field);
      return [key, field.required === true ? shape : z.exactOptional(shape)];
    }),
  );
}
