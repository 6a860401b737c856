/**
 * A table with a head; the first cell of a row says what the row is about. On a phone each row
 * becomes a block in which every value follows the name of its column. Nothing without rows.
 */
import type { ComponentChildren } from 'preact';

export interface TableRow {
  key?: string;
  class?: string | undefined;
  cells: readonly ComponentChildren[];
}

export function Table({ head, rows }: { head: readonly string[]; rows: readonly TableRow[] }) {
  if (rows.length === 0) return null;
  return (
    <div class="table">
      <table class="stacked">
        <thead>
          <tr>
            {head.map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ key, class: className, cells: [first, ...others] }, at) => (
            <tr key={key ?? at} class={className}>
              <th scope="row">{first}</th>
              {others.map((cell, column) => (
                <td key={head[column + 1]} data-name={head[column + 1]}>
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
