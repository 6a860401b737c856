import { USE_WORDS } from './logbook/uses.ts';

/** Names made for topics, as people write them: "north-paddock" is "North paddock". */
export function nameText(name: string): string {
  const text = name.replaceAll('-', ' ');
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Where a well is and what it is for: "Harrow bend, for house and stock". */
export function placeText({ site, uses }: { site?: string; uses: readonly string[] }): string {
  const words: Readonly<Record<string, string>> = USE_WORDS;
  const use = uses.length === 0 ? '' : `for ${uses.map((one) => words[one] ?? one).join(' and ')}`;
  return [site === undefined ? '' : nameText(site), use].filter((part) => part !== '').join(', ');
}

/** Figures stay with their units: "5.6 %" is never broken in two. */
export function withNonBreakingUnits(text: string): string {
  return text.replaceAll(/(\d) (?=[%A-Za-z])/g, '$1\u00a0');
}

/** Inside a sentence a name goes on in small letters, but for one such as "AC". */
export function lowerFirst(text: string): string {
  return /^[A-Z][a-z ]/.test(text) ? `${text.charAt(0).toLowerCase()}${text.slice(1)}` : text;
}

export function countText(n: number, one: string, many: string): string {
  return `${n === 0 ? 'no' : n} ${n === 1 ? one : many}`;
}
