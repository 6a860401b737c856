/** Which page an address means, from its part after `#`: it works from a server and from a folder alike. */

export type Page =
  { at: 'wells' } | { at: 'well'; well: string } | { at: 'nodes' } | { at: 'refused' } | { at: 'nowhere' };

export function pageOf(hash: string): Page {
  const [first = '', second, ...rest] = hash.replace(/^#\/?/, '').split('/');
  if (first === '' && second === undefined) return { at: 'wells' };
  if (rest.length > 0) return { at: 'nowhere' };
  if (first === 'well' && second) return { at: 'well', well: decode(second) };
  if (second !== undefined) return { at: 'nowhere' };
  return first === 'nodes' || first === 'refused' ? { at: first } : { at: 'nowhere' };
}

function decode(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

export function wellAddress(well: string): string {
  return `#/well/${encodeURIComponent(well)}`;
}
