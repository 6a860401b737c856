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
import { texts } from './texts.ts';

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
      setMessage(texts().metersReading(check.problem));
      setCompared(undefined);
    } else {
      setMessage('');
      setCompared({ meter, clamp, check });
    }
  };
  return (
    <details class="more">
      <summary>{texts().checkClamp}</summary>
      <p class="secondary">{texts().checkClampHelp(CAUTIONS.electrician, CAUTIONS['only-watches'])}</p>
      <p class="clamp-row">
        <label>
          {texts().meterReads}{' '}
          <input
            type="text"
            maxLength={40}
            placeholder={texts().ampsExample}
            value={meter}
            onInput={(event) => setMeter(event.currentTarget.value)}
          />
        </label>
        <button type="button" onClick={compare}>
          {texts().compare}
        </button>
      </p>
      <p role="status" class={message === '' ? undefined : 'refused'}>
        {message}
        {compared && checkWords(compared.check)}
      </p>
      {compared && (
        <ActionForm
          key={compared.meter}
          button={texts().saveMeterReading}
          doneMessage={texts().saved}
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
                  with: textOf(fields, 'with') || texts().clampMeter,
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
            {texts().whichMeter} <input type="text" name="with" maxLength={120} />
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
  return is === 'agrees'
    ? texts().agrees({ clamp: formatAmps(clampA), meter: formatAmps(meterA), allowed: formatAmps(allowedA) })
    : texts().differs({
        clamp: formatAmps(clampA),
        meter: formatAmps(meterA),
        allowed: formatAmps(allowedA),
        by: `${formatAmps(Math.abs(differenceA))} (${formatPercent(Math.abs(differenceRatio))})`,
        isMore: differenceA > 0,
      });
}
