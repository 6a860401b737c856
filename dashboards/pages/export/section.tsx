/** The well in section, with where to write down what is missing. */
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { logbookUrl } from '../../page-url.ts';
import { SectionFigure } from '../../../shared/view/section-figure.tsx';
import { RequestView } from '../../ui/request-view.tsx';
import { texts } from './texts.ts';

export function Section({ well }: { well: string }) {
  const { source, units } = useAppContext();
  const { state, reload } = useRequest(`section ${well} ${units}`, () =>
    source.get('section', { well, units }),
  );
  return (
    <RequestView state={state} subject={texts().drawing} reload={reload}>
      {(facts) => (
        <SectionFigure facts={facts} units={units}>
          {texts().sources} <a href={logbookUrl(well, 'card')}>{texts().card}</a> {texts().and}{' '}
          <a href={logbookUrl(well, 'readings')}>{texts().readings}</a>.
        </SectionFigure>
      )}
    </RequestView>
  );
}
