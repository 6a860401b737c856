/**
 * Labels beside a drawing, each as near to what it names as there is room for, in order and without
 * lying over each other.
 */

/**
 * Tops of labels whose middles would like to lie at `center`. `center` need not be in order; the
 * places come in the order of the question.
 */
export function placeLabels(
  labels: readonly { center: number; size: number }[],
  range: { from: number; to: number },
): number[] {
  const order = labels
    .map((_, i) => i)
    .toSorted((a, b) => (labels[a]?.center ?? 0) - (labels[b]?.center ?? 0));
  const tops: number[] = labels.map(() => range.from);
  let free = range.from;
  for (const i of order) {
    const { center, size } = labels[i]!;
    tops[i] = Math.max(free, center - size / 2);
    free = tops[i] + size;
  }
  // What ran out at the lower end is pushed back up.
  let end = range.to;
  for (const i of order.toReversed()) {
    const { size } = labels[i]!;
    tops[i] = Math.min(tops[i]!, end - size);
    end = tops[i]!;
  }
  return tops;
}
