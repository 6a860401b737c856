/**
 * The measured draw: a tank's air charge without draining it, from a measured amount of water and
 * two pressures that came to rest.
 */
import { useState } from 'preact/hooks';
import type { DrawAnswer } from '../../../shared/api/readings.ts';
import type { WellDetail } from '../../../shared/api/wells.ts';
import { formatQuantity, type UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { formatPercent } from '../../../shared/text/en/format.ts';
import { DRAW_PROBLEM_TEXT } from '../../../shared/text/en/checks/reading-words.ts';
import { useAppContext } from '../../data/settings.ts';
import { ActionForm, textOf } from '../../ui/action-form.tsx';
import { texts } from './texts.ts';

interface DrawInput {
  drawn: string;
  before: string;
  after: string;
  fellAway: boolean;
}

export function DrawTest({ detail, changed }: { detail: WellDetail; changed: () => void }) {
  const { source, units } = useAppContext();
  const [submitted, setSubmitted] = useState<DrawInput>();
  const [result, setResult] = useState<DrawAnswer>();
  const { well } = detail.well;
  const us = units === 'us';
  return (
    <>
      <ol class="steps">
        <li>{texts().switchThePumpOff}</li>
        <li>{texts().drawWait}</li>
        <li>{texts().drawWater}</li>
        <li>{texts().drawWaitAgain}</li>
      </ol>
      <p class="secondary">
        {CAUTIONS['tank-pressure']} {CAUTIONS['well-pit']}
      </p>
      <ActionForm
        class="card-form"
        button={texts().calculatePrecharge}
        submit={async (_to, fields) => {
          const drawn: DrawInput = {
            drawn: textOf(fields, 'drawn'),
            before: textOf(fields, 'before'),
            after: textOf(fields, 'after'),
            fellAway: fields.get('fellAway') !== null,
          };
          setResult(undefined);
          setResult(await source.get('measuredDraw', { well, ...drawn }));
          setSubmitted(drawn);
        }}
        done={() => undefined}
      >
        <div class="fields">
          <label class="field">
            {texts().waterDrawn}{' '}
            <input type="text" name="drawn" placeholder={us ? '5 gal' : '20 L'} required />
          </label>
          <label class="field">
            {texts().pressureBefore}{' '}
            <input type="text" name="before" placeholder={us ? '58 psi' : '400 kPa'} required />
          </label>
          <label class="field">
            {texts().pressureAfter}{' '}
            <input type="text" name="after" placeholder={us ? '46 psi' : '320 kPa'} required />
          </label>
        </div>
        <label class="tick">
          <input type="checkbox" name="fellAway" /> {texts().fellAway}
        </label>
      </ActionForm>
      <p role="status">{result && drawWords(result, units)}</p>
      {result?.prechargeKpa !== undefined && submitted && (
        <SavePrecharge well={well} submitted={submitted} kpa={result.prechargeKpa} changed={changed} />
      )}
    </>
  );
}

function SavePrecharge(props: { well: string; submitted: DrawInput; kpa: number; changed: () => void }) {
  const { well, submitted, kpa, changed } = props;
  const { fellAway, ...draw } = submitted;
  return (
    <ActionForm
      key={JSON.stringify(submitted)}
      button={texts().savePrecharge}
      doneMessage={texts().saved}
      submit={(to, _fields, actor) =>
        to.post(
          'writeEntry',
          { well },
          {
            entry: {
              kind: 'reading',
              what: 'precharge',
              value: `${Math.max(0, kpa).toFixed(1)} kPa`,
              with: texts().measuredDraw,
              from: 'hand',
              draw: { ...draw, ...(fellAway && { fellAway }) },
            },
            ...actor,
          },
        )
      }
      done={changed}
    />
  );
}

function drawWords(result: DrawAnswer, units: UnitSystem): string {
  const { prechargeKpa, reason, errorRatio, ranEmpty, altitudeKnown, tankL } = result;
  if (reason !== undefined) return DRAW_PROBLEM_TEXT[reason];
  if (prechargeKpa === undefined) return '';
  return texts().prechargeFound({
    precharge: formatQuantity(Math.max(0, prechargeKpa), 'pressure', units),
    tank: tankL === undefined ? undefined : formatQuantity(tankL, 'volume', units),
    error: errorRatio === undefined ? undefined : formatPercent(errorRatio),
    ranEmpty: ranEmpty === true,
    atSeaLevel: !altitudeKnown,
  });
}
