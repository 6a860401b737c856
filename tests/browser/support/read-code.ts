/** A code read back from a picture by a decoder that has nothing to do with the encoder. */
import { decode } from 'fast-png';
import jsqr from 'jsqr';

/**
 * The package is CommonJS: what it exports is under `default` for the compiler, and is the function
 * itself where it runs.
 */
const readPixels = jsqr as unknown as typeof jsqr.default;

/** `png` as a screenshot is. */
export function readCode(png: Uint8Array): { text: string; version: number } | undefined {
  const { width, height, data, channels } = decode(png);
  const pixels = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let i = 0; i < width * height; i++)
    for (let c = 0; c < 3; c++) pixels[i * 4 + c] = Number(data[i * channels + c]);
  const code = readPixels(pixels, width, height);
  return code ? { text: code.data, version: code.version } : undefined;
}
