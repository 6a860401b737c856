/**
 * Where something stands, as a phone's map shows it: latitude and longitude in decimal degrees,
 * "40.01, -105.27". Degrees with minutes and seconds are refused, as a map shows both ways at once.
 */
import { texts } from './texts.ts';

export interface Position {
  latitude: number;
  longitude: number;
}

const PAIR = /^([+-]?\d{1,2}(?:\.\d+)?)\s*[,;\s]\s*([+-]?\d{1,3}(?:\.\d+)?)$/;

export function parsePosition(written: unknown): { value: Position } | { problem: string } {
  const parts = typeof written === 'string' ? PAIR.exec(written.trim().replaceAll('\u2212', '-')) : null;
  const [latitude, longitude] = [Number(parts?.[1]), Number(parts?.[2])];
  return parts && Math.abs(latitude) <= 90 && Math.abs(longitude) <= 180
    ? { value: { latitude, longitude } }
    : { problem: texts().mustBeAPosition };
}
