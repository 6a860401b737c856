/** The measured draw: a tank's air charge without draining it, from a measured amount of water and two pressures that came to rest. */
import { useState } from 'preact/hooks';
import type { DrawAnswer } from '../../shared/api/readings.ts';
import type { WellDetail } from '../../shared/api/wells.ts';
import { printQuantity, type UnitSystem } from '../../shared/quantity/print-quantity.ts';
import { CAUTIONS } from '../../shared/words/cautions.ts';
import { sayShare } from '../../shared/words/format.ts';
import { DRAW_WORDS } from '../../shared/words/reading-words.ts';
import { useSurroundings } from '../data/settings.ts';
import { TellForm, textOf } from './tell-form.tsx';

interface Drawn {
  drawn: string;
  before: string;
  after: string;
  fellAway: boolean;
}

export function DrawTest({ detail, changed }: { detail: WellDetail; changed: () => void }) {
  const { source, units } = useSurroundings();
  const [asked, setAsked] = useState<Drawn>();
  const [found, setFound] = useState<DrawAnswer>();
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
      <p class="doing">
        {CAUTIONS['tank-pressure']} {CAUTIONS['well-pit']}
      </p>
      <TellForm
        class="card-form"
        button="Reckon the air charge"
        tell={async (_to, fields) => {
          const drawn: Drawn = {
            drawn: textOf(fields, 'drawn'),
            before: textOf(fields, 'before'),
            after: textOf(fields, 'after'),
            fellAway: fields.get('fellAway') !== null,
          };
          setFound(undefined);
          setFound(await source.ask('measuredDraw', { well, ...drawn }));
          setAsked(drawn);
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
      </TellForm>
      <p role="status">{found && drawWords(found, units)}</p>
      {found?.prechargeKpa !== undefined && asked && (
        <KeepCharge well={well} asked={asked} kpa={found.prechargeKpa} changed={changed} />
      )}
    </>
  );
}

function KeepCharge(props: { well: string; asked: Drawn; kpa: number; changed: () => void }) {
  const { well, asked, kpa, changed } = props;
  const { fellAway, ...draw } = asked;
  return (
    <TellForm
      key={JSON.stringify(asked)}
      button="Keep it as the precharge"
      doneWords="Kept."
      tell={(to, _fields, who) =>
        to.tell(
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
            ...who,
          },
        )
      }
      done={changed}
    />
  );
}

function drawWords(found: DrawAnswer, units: UnitSystem): string {
  const { prechargeKpa, because, errorShare, ranEmpty, altitudeGiven, tankL } = found;
  if (because !== undefined) return DRAW_WORDS[because];
  if (prechargeKpa === undefined) return '';
  const charge = printQuantity(Math.max(0, prechargeKpa), 'pressure', units);
  const tank = tankL === undefined ? '' : ` for a tank of ${printQuantity(tankL, 'volume', units)}`;
  const open =
    errorShare === undefined ? '' : ` The measuring leaves about ${sayShare(errorShare)} of the air open.`;
  const empty = ranEmpty === true ? ' The tank ran empty in the test.' : '';
  const height = altitudeGiven ? '' : ' The card gives no altitude, so sea level was taken.';
  return `The precharge is about ${charge}${tank}.${open}${empty}${height}`;
}
