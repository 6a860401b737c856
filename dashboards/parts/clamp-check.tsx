/** A hand-held meter's amps against the clamp, at the moment at which they are read: do the two agree, or by how much are they apart? */
import { useState } from 'preact/hooks';
import type { ClampNow } from '../../shared/api/readings.ts';
import { checkClamp, type ClampCheck } from '../../shared/readings/clamp-check.ts';
import { CAUTIONS } from '../../shared/words/cautions.ts';
import { sayAmps, sayShare } from '../../shared/words/format.ts';
import { TellForm, textOf } from './tell-form.tsx';

interface Compared {
  meter: string;
  clamp: ClampNow;
  check: Exclude<ClampCheck, { is: 'no-meter' }>;
}

export interface ClampCheckProps {
  well: string;
  pump: string;
  clamp: ClampNow;
  changed: () => void;
}

export function ClampCheckForm({ well, pump, clamp, changed }: ClampCheckProps) {
  const [meter, setMeter] = useState('');
  const [said, setSaid] = useState('');
  const [compared, setCompared] = useState<Compared>();
  const compare = (): void => {
    const check = checkClamp(meter, clamp.amps, clamp.stepA);
    if (check.is === 'no-meter') {
      setSaid(check.problem);
      setCompared(undefined);
    } else {
      setSaid('');
      setCompared({ meter, clamp, check });
    }
  };
  return (
    <details class="more">
      <summary>You hold a clamp meter: check the clamp against it</summary>
      <p class="doing">
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
      <p role="status" class={said === '' ? undefined : 'refused'}>
        {said}
        {compared && checkWords(compared.check)}
      </p>
      {compared && (
        <TellForm
          key={compared.meter}
          button="Keep the meter’s reading"
          doneWords="Kept."
          tell={(to, fields, who) =>
            to.tell(
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
                ...who,
              },
            )
          }
          done={changed}
        >
          <label>
            Which meter <input type="text" name="with" maxLength={120} />
          </label>
        </TellForm>
      )}
    </details>
  );
}

function checkWords({ is, meterA, clampA, offA, offShare, allowedA }: Compared['check']): string {
  const both = `The clamp shows ${sayAmps(clampA)}, the meter ${sayAmps(meterA)}`;
  if (is === 'agrees')
    return `${both}: the clamp agrees, within the ${sayAmps(allowedA)} that two such instruments may differ by.`;
  const way = offA > 0 ? 'more' : 'less';
  return `${both}: the clamp shows ${sayAmps(Math.abs(offA))} (${sayShare(Math.abs(offShare))}) ${way}. Up to ${sayAmps(allowedA)} would agree.`;
}
