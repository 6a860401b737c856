/**
 * Pieces of HTML that cannot be broken by what people wrote: every value put into a piece is
 * escaped unless it is a piece itself.
 */
import type { Drawing, Shape } from '../../../shared/drawing/shape.ts';

export interface Markup {
  markup: string;
}
type Value = string | number | Markup | undefined | false | readonly (Markup | string | undefined | false)[];

/** A tagged template: html`<p>${text}</p>`. Absent and false are nothing. */
export function html(strings: TemplateStringsArray, ...values: Value[]): Markup {
  return { markup: strings.reduce((sum, string, i) => `${sum}${render(values[i - 1])}${string}`) };
}

function render(value: Value): string {
  if (value === undefined || value === false) return '';
  if (typeof value === 'string') return escape(value);
  if (typeof value === 'number') return String(value);
  if ('markup' in value) return value.markup;
  return value.map(render).join('');
}

/** For text and for attributes in double quotes. */
function escape(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}

const NO_MARKUP: Markup = { markup: '' };

/** A drawing in its place in the page, with its sentence for who cannot see it. */
export function svg({ width, height, label, shapes }: Drawing): Markup {
  return html`<svg viewBox="0 0 ${width} ${height}" width="${width}" role="img" aria-label="${label}">
    ${shapes.map(element)}
  </svg>`;
}

function element({ element: is, attrs, text }: Shape): Markup {
  return { markup: `<${is} ${attributes(attrs).markup}>${escape(text ?? '')}</${is}>` };
}

/** Names and values as they stand in a tag. */
function attributes(attrs: Shape['attrs']): Markup {
  const pairs = Object.entries(attrs).map(([name, value]) => `${name}="${escape(String(value))}"`);
  return { markup: pairs.join(' ') };
}

/** A table with a head; nothing where it has no rows. */
export function table(head: readonly string[], rows: readonly (readonly Value[])[]): Markup {
  if (rows.length === 0) return NO_MARKUP;
  return html`<table>
    <thead>
      <tr>
        ${head.map((name) => html`<th scope="col">${name}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${rows.map(
        (row) =>
          html`<tr>
            ${row.map((cell) => html`<td>${cell}</td>`)}
          </tr> `,
      )}
    </tbody>
  </table> `;
}

/** Name and value, in two columns. */
export function facts(rows: readonly (readonly [string, Value])[]): Markup {
  if (rows.length === 0) return NO_MARKUP;
  return html`<table class="facts">
    <tbody>
      ${rows.map(
        ([name, value]) =>
          html`<tr>
            <th scope="row">${name}</th>
            <td>${value}</td>
          </tr> `,
      )}
    </tbody>
  </table> `;
}

export function section(id: string, title: string, inner: Markup): Markup {
  return html`<section id="${id}">
    <h2>${title}</h2>
    ${inner}
  </section> `;
}
