/** Parts that work affects, by the names of shared/entries/entry-fields.ts. */
export const PARTS_OF_WORK = {
  motor: 'motor',
  tank: 'tank',
  switch: 'pressure switch',
  pipe: 'pipe or valve',
  wiring: 'wiring or control box',
  well: 'the well itself',
  sensors: 'node, clamp or transducer',
  other: 'something else',
};

export function partName(part: string): string {
  const names: Readonly<Record<string, string>> = PARTS_OF_WORK;
  return names[part] ?? part;
}
