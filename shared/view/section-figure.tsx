/** The well in section, as far as it is known; what is not known is said beneath it. */
import type { ComponentChildren } from 'preact';
import { drawSection, type SectionFacts } from '../drawing/section.ts';
import type { UnitSystem } from '../quantity/format-quantity.ts';
import { DrawingView } from './drawing.tsx';

export function SectionFigure(props: {
  facts: SectionFacts;
  units: UnitSystem;
  /** Ends the caption. */
  children?: ComponentChildren;
}) {
  const drawing = drawSection(props.facts, props.units);
  return (
    <figure class="section-figure">
      <div class="section-frame">
        <DrawingView drawing={drawing} class="well-section" />
      </div>
      {drawing.contradictions.map((sentence) => (
        <p key={sentence} class="reason">
          {sentence}
        </p>
      ))}
      <figcaption>
        {drawing.toScale
          ? 'Depths are to scale, from the ground down. Widths and everything above the ground are not.'
          : 'Nothing here is to scale: no depth is known.'}
        {drawing.unknown.length > 0 &&
          ` Not known, and drawn broken or left out: ${drawing.unknown.join(', ')}.`}{' '}
        {props.children}
      </figcaption>
    </figure>
  );
}
