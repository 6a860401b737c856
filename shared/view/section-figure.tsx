/** The well in section, as far as it is known; what is not known is said beneath it. */
import type { ComponentChildren } from 'preact';
import { drawSection, type SectionFacts } from '../drawing/section.ts';
import type { UnitSystem } from '../quantity/format-quantity.ts';
import { DrawingView } from './drawing.tsx';
import { texts } from './texts.ts';

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
        {drawing.toScale ? texts().toScale : texts().notToScale}
        {drawing.unknown.length > 0 && ` ${texts().unknown(drawing.unknown.join(', '))}`} {props.children}
      </figcaption>
    </figure>
  );
}
