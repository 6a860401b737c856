/** The well in section, as far as it is known; what is not known is said beneath it. */
import { drawSection } from '../../../shared/drawing/section.ts';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { logbookUrl } from '../../page-url.ts';
import { DrawingView } from '../../charts/drawing.tsx';
import { RequestView } from '../../ui/request-view.tsx';

export function Section({ well }: { well: string }) {
  const { source, units } = useAppContext();
  const { state, reload } = useRequest(`section ${well} ${units}`, () =>
    source.get('section', { well, units }),
  );
  return (
    <RequestView state={state} subject="the drawing" reload={reload}>
      {(facts) => {
        const drawing = drawSection(facts, units);
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
                ? 'Depths are to scale, from the ground down; widths and what stands at the surface are not.'
                : 'Nothing here is to scale: no depth is known.'}
              {drawing.unknown.length > 0 &&
                ` Not known, and drawn broken or left out: ${drawing.unknown.join(', ')}.`}{' '}
              What is known stands on the <a href={logbookUrl(well, 'card')}>card</a> and among the{' '}
              <a href={logbookUrl(well, 'readings')}>readings</a>.
            </figcaption>
          </figure>
        );
      }}
    </RequestView>
  );
}
