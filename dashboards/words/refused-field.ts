/**
 * Where a form was refused: which field the server means, and what stands at the button meanwhile.
 */
import { RequestError } from '../data/source.ts';

/**
 * Which field the server refused, and why: "Cannot read entry: results.2.unit must be …". Undefined
 * where it is about no field.
 */
export function refusedField(error: unknown): { field: string; reason: string } | undefined {
  if (!(error instanceof RequestError)) return undefined;
  const parts = /^Cannot read \w+: ([\w.]+) (.+)$/s.exec(error.message);
  return parts?.[1] === undefined || parts[2] === undefined
    ? undefined
    : { field: parts[1], reason: parts[2].charAt(0).toUpperCase() + parts[2].slice(1) };
}
