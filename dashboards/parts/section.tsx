/** The well in section, as far as it is known; what is not known is said beneath it. */
import { drawSection } from '../../shared/drawing/section.ts';
import { useSurroundings } from '../data/settings.ts';
import { useAsked } from '../data/use-asked.ts';
import { bookAddress } from '../page-of.ts';
import { DrawingOf } from './drawing.tsx';
import { Said } from './said.tsx';

export function Section({ well }: { well: string }) {
  const { source, units } = useSurroundings();
  const { state, again } = useAsked(`section ${well} ${units}`, () => source.ask('section', { well, units }));
  return (
    <Said state={state} what="the drawing" again={again}>
      {(facts) => {
        const drawing = drawSection(facts, units);
        return (
          <figure class="section-figure">
            <div class="section-frame">
              <DrawingOf drawing={drawing} class="well-section" />
            </div>
            {drawing.odd.map((sentence) => (
              <p key={sentence} class="reason">
                {sentence}
              </p>
            ))}
            <figcaption>
              {drawing.toScale
                ? 'Depths are to scale, from the ground down; widths and what stands at the surface are not.'
                : 'Nothing here is to scale: no depth is known.'}
              {drawing.unknown.length > 0 &&
                ` Not known, and drawn broken or left out: ${drawing.unknown.join(', ')}.`}{' '}
              What is known stands on the <a href={bookAddress(well, 'card')}>card</a> and among the{' '}
              <a href={bookAddress(well, 'readings')}>readings</a>.
            </figcaption>
          </figure>
        );
      }}
    </Said>
  );
}
