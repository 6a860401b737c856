/**
 * What was written, in words for people: keys of cards and entries as names, values as they were
 * written. Works for keys that nobody foresaw.
 */
import { texts } from '../texts.ts';

/** `setDepth` -> "Set depth", `water-test` -> "Water test", `p2` stays. */
export function humanizeKey(key: string): string {
  if (/^p\d+$/.test(key)) return texts().pump(key.slice(1));
  const words = key
    .replaceAll(/([a-z])([A-Z])/g, '$1 $2')
    .replaceAll('-', ' ')
    .toLowerCase();
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** A value in one line: lists parted by commas, objects as "name: value". */
export function formatValue(value: unknown): string {
  if (Array.isArray(value)) return value.map(formatValue).join(', ');
  if (typeof value === 'object' && value !== null)
    return Object.entries(value)
      .map(([key, inner]) => `${humanizeKey(key).toLowerCase()}: ${formatValue(inner)}`)
      .join('; ');
  if (typeof value === 'boolean') return value ? texts().yes : texts().no;
  if (typeof value === 'number') return String(value);
  return typeof value === 'string' ? value : '';
}
