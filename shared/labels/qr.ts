/**
 * The code on a label: the facts themselves as plain text, for a telephone without network. A
 * module is at least 0.5 mm, which any telephone reads from a hand's breadth (common practice, no
 * source), with error correction M or better, so that a scratch of a seventh of it does no harm.
 * What does not fit at that size is left out from the end, whole lines at a time: the most
 * important stand first.
 */
export const MIN_MODULE_MM = 0.5;
const MAX_MODULE_MM = 0.6;
/** Light modules around it (ISO/IEC 18004). */
export const QUIET_ZONE_MODULES = 4;

/**
 * Text to modules, dark ones true, with error correction M and no border; throws where no code
 * holds the text.
 */
export type Encode = (text: string) => {
  version: number;
  size: number;
  data: readonly (readonly boolean[])[];
};

export interface QrCode {
  text: string;
  version: number;
  /** Modules along a side, without the light border. */
  size: number;
  moduleMm: number;
  /** Dark modules as one path in modules, row by row. */
  path: string;
}

/**
 * The code of as many lines as fit into a square of `sideMm`. Undefined where not even the first
 * does.
 */
export function makeQrCode(lines: readonly string[], sideMm: number, encode: Encode): QrCode | undefined {
  const maxModules = Math.floor(sideMm / MIN_MODULE_MM);
  for (let count = lines.length; count > 0; count--) {
    const text = lines.slice(0, count).join('\n');
    const code = tryEncode(text, encode);
    if (code && code.size <= maxModules)
      return {
        text,
        version: code.version,
        size: code.size,
        moduleMm: Math.min(MAX_MODULE_MM, sideMm / code.size),
        path: modulesPath(code.data),
      };
  }
  return undefined;
}

/** Undefined where the text is longer than any code can hold. */
function tryEncode(text: string, encode: Encode): ReturnType<Encode> | undefined {
  try {
    return encode(text);
  } catch {
    return undefined;
  }
}

/** Runs of dark modules: a code of 60 by 60 is some hundred strokes and no 2,000 squares. */
function modulesPath(rows: readonly (readonly boolean[])[]): string {
  return rows
    .map((row, y) => {
      let path = '';
      for (let x = 0; x < row.length; x++) {
        if (!row[x] || row[x - 1]) continue;
        let end = x;
        while (row[end]) end++;
        path += `M${x} ${y}h${end - x}v1h${x - end}z`;
      }
      return path;
    })
    .join('');
}
