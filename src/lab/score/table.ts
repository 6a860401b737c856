/** Rows of cells as aligned text, or as Markdown. */

export function table(rows: readonly string[][]): string {
  const widths = rows[0]!.map((_, at) => Math.max(...rows.map((row) => row[at]!.length)));
  return rows
    .map((row) =>
      row
        .map((cell, at) => cell.padEnd(widths[at]!))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

export function markdown(head: readonly string[], rows: readonly string[][]): string[] {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)];
}
