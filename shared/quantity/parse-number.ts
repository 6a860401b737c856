/**
 * Numbers as people write them on a pump's card: "9.8", "5 200", "5,200", "3/4", "1-1/2", "1 1/2",
 * "½", "-10". A comma parts thousands and nothing else: "1,5" could be fifteen or one and a half,
 * so it is refused rather than guessed.
 */

/** Signs that stand for a fraction in one character, as text. */
const FRACTION_CHARACTERS: Record<string, string> = {
  '¼': '1/4',
  '½': '1/2',
  '¾': '3/4',
  '⅓': '1/3',
  '⅔': '2/3',
};

const PLAIN = /^[+-]?(\d+(\.\d+)?|\.\d+)$/;
const GROUPED = /^[+-]?\d{1,3}([ ,]\d{3})+(\.\d+)?$/;
const FRACTION = /^(?:(\d{1,4})[ -])?(\d{1,3})\/(\d{1,3})$/;

/** The number that `text` writes, or undefined where it writes none. Never NaN or infinite. */
export function parseNumber(text: string): number | undefined {
  const plain = normalizeNumber(text);
  if (PLAIN.test(plain)) return finite(Number(plain));
  if (GROUPED.test(plain)) return finite(Number(plain.replace(/[ ,]/g, '')));
  const parts = FRACTION.exec(plain);
  if (!parts) return undefined;
  const denominator = Number(parts[3]);
  return denominator === 0 ? undefined : Number(parts[1] ?? 0) + Number(parts[2]) / denominator;
}

/** One kind of space and of minus, and fractions in full. */
function normalizeNumber(text: string): string {
  return text
    .replace(/[¼½¾⅓⅔]/g, (sign) => ` ${FRACTION_CHARACTERS[sign]}`)
    .replace(/[\u2212\u2010\u2011]/g, '-')
    .replace(/\u2044/g, '/')
    .replace(/[\s\u00a0\u2009\u202f]+/g, ' ')
    .replace(/^([+-]) /, '$1')
    .trim();
}

function finite(value: number): number | undefined {
  return Number.isFinite(value) ? value : undefined;
}
