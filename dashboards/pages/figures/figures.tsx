/** Water by month and year beside what a permit allows, and each pump on its curve. */
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { LogbookHead } from '../../ui/logbook-head.tsx';
import { RequestView } from '../../ui/request-view.tsx';
import { PumpSection } from './pump-section.tsx';
import { texts } from './texts.ts';
import { WaterSection } from './water-section.tsx';

export function FiguresPage({ name }: { name: string }) {
  const { source } = useAppContext();
  const { state, reload } = useRequest(`figures ${name}`, () => source.get('figures', { well: name }));
  return (
    <>
      <LogbookHead well={name} page="figures" />
      <RequestView state={state} subject={texts().subject} reload={reload}>
        {(value) => (
          <>
            {value.pumps.map((figures) => (
              <PumpSection
                key={figures.pump}
                figures={figures}
                timeZone={value.timeZone}
                only={value.pumps.length === 1}
              />
            ))}
            <WaterSection value={value} />
          </>
        )}
      </RequestView>
    </>
  );
}
