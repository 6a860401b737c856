/** The drawing of the well, and what it cannot show. */
import { drawSection } from '../../../shared/drawing/section.ts';
import { sectionFacts } from '../visits/section-facts.ts';
import type { ExportContext } from './context.ts';
import { html, svg, type Markup } from './markup.ts';

export function drawingSection({ card, record, units }: ExportContext): Markup {
  const drawing = drawSection(sectionFacts(card, record.entries, units), units);
  const scale = drawing.toScale
    ? 'Depths are to scale, from the ground down; widths and what stands at the surface are not.'
    : 'Nothing here is to scale: no depth is known.';
  return html`<figure>
      ${svg(drawing)}
      <figcaption>
        ${scale}
        ${drawing.unknown.length > 0 && `Not known, and drawn broken or left out: ${drawing.unknown.join(', ')}.`}
      </figcaption>
    </figure>
    ${drawing.contradictions.map((sentence) => html`<p><strong>${sentence}</strong></p> `)}`;
}
