/**
 * Readings of a well: taken from the sensors with a guide, brought by people, and held against the
 * pinned ones over the years.
 */
import type { WellDetail } from '../../../shared/api/wells.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import {
  UNQUALIFIED_READINGS,
  QUALIFIED_READINGS,
  QUALIFIED_ONLY_NOTE,
} from '../../../shared/text/en/checks/reading-words.ts';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { LogbookHead } from '../../ui/logbook-head.tsx';
import { Calibrate } from './calibrate.tsx';
import { DrawTest } from './draw-test.tsx';
import { GuidedRun } from './guided-run.tsx';
import { ReadingForm } from './reading-form.tsx';
import { ReadingHistory } from './reading-history.tsx';
import { RequestView } from '../../ui/request-view.tsx';
import { texts } from './texts.ts';

export function ReadingsPage({ name }: { name: string }) {
  const { source } = useAppContext();
  const detail = useRequest(`well ${name}`, () => source.get('well', { well: name }));
  const readings = useRequest(`readings ${name}`, () => source.get('readings', { well: name }));
  return (
    <>
      <LogbookHead well={name} page="readings" />
      <RequestView state={detail.state} subject={texts().thisWell} reload={detail.reload}>
        {(value) => (
          <>
            {source.live && <AddReadings detail={value} changed={readings.reload} />}
            <section aria-labelledby="years">
              <h2 id="years">{texts().overTheYears}</h2>
              <RequestView state={readings.state} subject={texts().subject} reload={readings.reload}>
                {({ groups, windings, calibration }) => (
                  <>
                    <Calibrate
                      sensors={value.sensors}
                      calibration={calibration}
                      changed={() => {
                        detail.reload();
                        readings.reload();
                      }}
                    />
                    <ReadingHistory
                      well={name}
                      groups={groups}
                      windings={windings}
                      timeZone={value.well.timeZone}
                      changed={readings.reload}
                    />
                  </>
                )}
              </RequestView>
            </section>
          </>
        )}
      </RequestView>
    </>
  );
}

function AddReadings({ detail, changed }: { detail: WellDetail; changed: () => void }) {
  return (
    <div class="reading-forms">
      <section aria-labelledby="guide">
        <h2 id="guide">{texts().guided}</h2>
        <GuidedRun detail={detail} changed={changed} />
      </section>
      <details class="more">
        <summary>{texts().ownReading}</summary>
        <p class="secondary">{CAUTIONS['well-cap']}</p>
        <ReadingForm detail={detail} readingNames={UNQUALIFIED_READINGS} changed={changed} />
      </details>
      <details class="more">
        <summary>{texts().drawTest}</summary>
        <DrawTest detail={detail} changed={changed} />
      </details>
      <details class="more">
        <summary>{texts().qualified}</summary>
        <p class="status">{QUALIFIED_ONLY_NOTE}</p>
        <ReadingForm
          detail={detail}
          readingNames={QUALIFIED_READINGS}
          photoWords={texts().boxPhotoCaution}
          changed={changed}
        />
      </details>
    </div>
  );
}
