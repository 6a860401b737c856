/**
 * A hand-held meter's amps against the clamp, at the moment at which they are read: do the two
 * agree, or by how much are they apart?
 */
import { useState } from 'preact/hooks';
import type { ClampReading } from '../../../shared/api/readings.ts';
import { checkClamp, type ClampCheck } from '../../../shared/readings/clamp-check.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { formatAmps, formatPercent } from '../../../shared/text/en/format.ts';
import { ActionForm, textOf } from '../../ui/action-form.tsx';

interface Comparison {
  meter: string;
  clamp: ClampReading;
  check: Exclude<ClampCheck, { is: 'no-meter' }>;
}

export interface ClampCheckProps {
  well: string;
  pump: string;
  clamp: ClampReading;
  changed: () => void;
}

export function ClampCheckForm({ well, pump, clamp, changed }: ClampCheckProps) {
  const [meter, setMeter] = useState('');
  const [message, setMessage] = useState('');
  const [compared, setCompared] = useState<Comparison>();
  const compare = (): void => {
    const check = checkClamp(meter, clamp.amps, clamp.stepA);
    if (check.is === 'no-meter') {
      setMessage(check.problem);
      setCompared(undefined);
    } else {
      setMessage('');
      setCompared({ meter, clamp, check });
    }
  };
  return (
    <details class="more">
      <summary>You hold a clamp meter: check the clamp against it</summary>
      <p class="secondary">
        For an electrician, or whoever else may put a meter on an insulated conductor, without opening
        anything that is closed. Read the meter while the pump runs, write what it shows, and compare at once.{' '}
        {CAUTIONS.electrician} {CAUTIONS['only-watches']}
      </p>
      <p class="clamp-row">
        <label>
          The meter shows{' '}
          <input
            type="text"
            maxLength={40}
            placeholder="7.9 A"
            value={meter}
            onInput={(event) => setMeter(event.currentTarget.value)}
          />
        </label>
        <button type="button" onClick={compare}>
          Compare
        </button>
      </p>
      <p role="status" class={message === '' ? undefined : 'refused'}>
        {message}
        {compared && checkWords(compared.check)}
      </p>
      {compared && (
        <ActionForm
          key={compared.meter}
          button="Keep the meter’s reading"
          doneMessage="Kept."
          submit={(to, fields, actor) =>
            to.post(
              'writeEntry',
              { well },
              {
                entry: {
                  kind: 'reading',
                  what: 'amps',
                  value: compared.meter,
                  pump,
                  from: 'hand',
                  with: textOf(fields, 'with') || 'clamp meter',
                  // As the node sent it, not corrected: two such pairs calibrate the clamp.
                  clamp: `${Number(compared.clamp.readA.toPrecision(6))} A`,
                },
                ...actor,
              },
            )
          }
          done={changed}
        >
          <label>
            Which meter <input type="text" name="with" maxLength={120} />
          </label>
        </ActionForm>
      )}
    </details>
  );
}

function checkWords({
  is,
  meterA,
  clampA,
  differenceA,
  differenceRatio,
  allowedA,
}: Comparison['check']): string {
  const both = `The clamp shows ${formatAmps(clampA)}, the meter ${formatAmps(meterA)}`;
  if (is === 'agrees')
    return `${both}: the clamp agrees, within the ${formatAmps(allowedA)} that two such instruments may differ by.`;
  const direction = differenceA > 0 ? 'more' : 'less';
  return `${both}: the clamp shows ${formatAmps(Math.abs(differenceA))} (${formatPercent(Math.abs(differenceRatio))}) ${direction}. Up to ${formatAmps(allowedA)} would agree.`;
}
