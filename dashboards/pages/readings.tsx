/** Readings of a well: taken from the sensors with a guide, brought by people, and held against the pinned ones over the years. */
import type { WellDetail } from '../../shared/api/wells.ts';
import { CAUTIONS } from '../../shared/words/cautions.ts';
import { BROUGHT, QUALIFIED, QUALIFIED_ONLY } from '../../shared/words/reading-words.ts';
import { useSurroundings } from '../data/settings.ts';
import { useAsked } from '../data/use-asked.ts';
import { BookHead } from '../parts/book-head.tsx';
import { Calibrate } from '../parts/calibrate.tsx';
import { DrawTest } from '../parts/draw-test.tsx';
import { GuidedRun } from '../parts/guided-run.tsx';
import { ReadingForm } from '../parts/reading-form.tsx';
import { ReadingYears } from '../parts/reading-years.tsx';
import { Said } from '../parts/said.tsx';

export function ReadingsPage({ name }: { name: string }) {
  const { source } = useSurroundings();
  const detail = useAsked(`well ${name}`, () => source.ask('well', { well: name }));
  const readings = useAsked(`readings ${name}`, () => source.ask('readings', { well: name }));
  return (
    <>
      <BookHead well={name} what="readings" />
      <Said state={detail.state} what="this well" again={detail.again}>
        {(value) => (
          <>
            {source.live && <Take detail={value} changed={readings.again} />}
            <section aria-labelledby="years">
              <h2 id="years">Readings over the years</h2>
              <Said state={readings.state} what="the readings" again={readings.again}>
                {({ groups, calibration }) => (
                  <>
                    <Calibrate
                      sensors={value.sensors}
                      calibration={calibration}
                      changed={() => {
                        detail.again();
                        readings.again();
                      }}
                    />
                    <ReadingYears
                      well={name}
                      groups={groups}
                      timeZone={value.well.timeZone}
                      changed={readings.again}
                    />
                  </>
                )}
              </Said>
            </section>
          </>
        )}
      </Said>
    </>
  );
}

function Take({ detail, changed }: { detail: WellDetail; changed: () => void }) {
  return (
    <div class="taking">
      <section aria-labelledby="guide">
        <h2 id="guide">Reference readings with a guide</h2>
        <GuidedRun detail={detail} changed={changed} />
      </section>
      <details class="more">
        <summary>A reading that you bring: level, precharge, flow</summary>
        <p class="doing">{CAUTIONS['well-cap']}</p>
        <ReadingForm detail={detail} whats={BROUGHT} changed={changed} />
      </details>
      <details class="more">
        <summary>The tank’s air charge from a measured draw</summary>
        <DrawTest detail={detail} changed={changed} />
      </details>
      <details class="more">
        <summary>Results of a qualified person: windings, insulation, capacitor, voltage</summary>
        <p class="said">{QUALIFIED_ONLY}</p>
        <ReadingForm
          detail={detail}
          whats={QUALIFIED}
          photoWords="Photos of the inside of a box are for whoever has it open and locked out already. A closed one stays closed."
          changed={changed}
        />
      </details>
    </div>
  );
}
