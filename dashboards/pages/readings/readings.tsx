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

export function ReadingsPage({ name }: { name: string }) {
  const { source } = useAppContext();
  const detail = useRequest(`well ${name}`, () => source.get('well', { well: name }));
  const readings = useRequest(`readings ${name}`, () => source.get('readings', { well: name }));
  return (
    <>
      <LogbookHead well={name} page="readings" />
      <RequestView state={detail.state} subject="this well" reload={detail.reload}>
        {(value) => (
          <>
            {source.live && <AddReadings detail={value} changed={readings.reload} />}
            <section aria-labelledby="years">
              <h2 id="years">Readings over the years</h2>
              <RequestView state={readings.state} subject="the readings" reload={readings.reload}>
                {({ groups, calibration }) => (
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
        <h2 id="guide">Reference readings with a guide</h2>
        <GuidedRun detail={detail} changed={changed} />
      </section>
      <details class="more">
        <summary>A reading that you bring: level, precharge, flow</summary>
        <p class="secondary">{CAUTIONS['well-cap']}</p>
        <ReadingForm detail={detail} readingNames={UNQUALIFIED_READINGS} changed={changed} />
      </details>
      <details class="more">
        <summary>The tank’s air charge from a measured draw</summary>
        <DrawTest detail={detail} changed={changed} />
      </details>
      <details class="more">
        <summary>Results of a qualified person: windings, insulation, capacitor, voltage</summary>
        <p class="status">{QUALIFIED_ONLY_NOTE}</p>
        <ReadingForm
          detail={detail}
          readingNames={QUALIFIED_READINGS}
          photoWords="Photos of the inside of a box are for whoever has it open and locked out already. A closed one stays closed."
          changed={changed}
        />
      </details>
    </div>
  );
}
