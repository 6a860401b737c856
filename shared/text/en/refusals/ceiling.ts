/** How many nodes and wells one server takes, as the end of a sentence says it. */
export interface CeilingReached {
  of: 'nodes' | 'wells';
  max: number;
  known: number;
}

export function ceilingText({ of, max, known }: CeilingReached): string {
  return of === 'wells'
    ? `one server watches ${max} wells at most, and ${known} are known`
    : `one server takes ${max} nodes at most, and ${known} are known`;
}
