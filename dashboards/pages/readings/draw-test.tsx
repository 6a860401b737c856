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
        <li>
          Switch the pump off at its breaker or disconnect, so that it can’t start meanwhile. Draw no other
          water.
        </li>
        <li>Wait some minutes until the gauge stands still, and write down what it shows.</li>
        <li>
          Draw a measured amount into buckets: 5 gal (20 L) or more. If the flow dies and the pressure falls
          away before it is done, say so below.
        </li>
        <li>Wait again until the gauge stands still, and write that down. Then switch the pump on.</li>
      </ol>
      <p class="secondary">
        {CAUTIONS['tank-pressure']} {CAUTIONS['well-pit']}
      </p>
      <ActionForm
        class="card-form"
        button="Calculate precharge"
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
            Water drawn <input type="text" name="drawn" placeholder={us ? '5 gal' : '20 L'} required />
          </label>
          <label class="field">
            Pressure before{' '}
            <input type="text" name="before" placeholder={us ? '58 psi' : '400 kPa'} required />
          </label>
          <label class="field">
            Pressure after <input type="text" name="after" placeholder={us ? '46 psi' : '320 kPa'} required />
          </label>
        </div>
        <label class="tick">
          <input type="checkbox" name="fellAway" /> The flow died and the pressure fell away at once
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
      button="Keep it as the precharge"
      doneMessage="Kept."
      submit={(to, _fields, actor) =>
        to.post(
          'writeEntry',
          { well },
          {
            entry: {
              kind: 'reading',
              what: 'precharge',
              value: `${Math.max(0, kpa).toFixed(1)} kPa`,
              with: 'measured draw',
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
  const charge = formatQuantity(Math.max(0, prechargeKpa), 'pressure', units);
  const tank = tankL === undefined ? '' : ` for a tank of ${formatQuantity(tankL, 'volume', units)}`;
  const open =
    errorRatio === undefined
      ? ''
      : ` The measuring leaves about ${formatPercent(errorRatio)} of the air open.`;
  const empty = ranEmpty === true ? ' The tank ran empty in the test.' : '';
  const height = altitudeKnown ? '' : ' The card gives no altitude, so sea level was taken.';
  return `The precharge is about ${charge}${tank}.${open}${empty}${height}`;
}
