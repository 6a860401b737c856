/** The well in section, with where to write down what is missing. */
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { logbookUrl } from '../../page-url.ts';
import { SectionFigure } from '../../../shared/view/section-figure.tsx';
import { RequestView } from '../../ui/request-view.tsx';

export function Section({ well }: { well: string }) {
  const { source, units } = useAppContext();
  const { state, reload } = useRequest(`section ${well} ${units}`, () =>
    source.get('section', { well, units }),
  );
  return (
    <RequestView state={state} subject="the drawing" reload={reload}>
      {(facts) => (
        <SectionFigure facts={facts} units={units}>
          What is known stands on the <a href={logbookUrl(well, 'card')}>card</a> and among the{' '}
          <a href={logbookUrl(well, 'readings')}>readings</a>.
        </SectionFigure>
      )}
    </RequestView>
  );
}
