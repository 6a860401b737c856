/** Labels beside a drawing, each as near to what it names as there is room for, in order and without lying over each other. */

/** Tops of labels whose middles would like to lie at `at`. `at` need not be in order; the places come in the order of the question. */
export function spread(
  labels: readonly { at: number; size: number }[],
  room: { from: number; to: number },
): number[] {
  const order = labels.map((_, i) => i).toSorted((a, b) => (labels[a]?.at ?? 0) - (labels[b]?.at ?? 0));
  const tops: number[] = labels.map(() => room.from);
  let free = room.from;
  for (const i of order) {
    const { at, size } = labels[i]!;
    tops[i] = Math.max(free, at - size / 2);
    free = tops[i] + size;
  }
  // What ran out at the lower end is pushed back up.
  let end = room.to;
  for (const i of order.toReversed()) {
    const { size } = labels[i]!;
    tops[i] = Math.min(tops[i]!, end - size);
    end = tops[i]!;
  }
  return tops;
}
