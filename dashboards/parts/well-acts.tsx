/**
 * What people know of a well and the readings don't: that somebody works on it, that more water will be used, that it stands still, or
 * what is normal for it. Each is an act that is kept with its time; none switches anything.
 */
import type { WrittenAct } from '../../shared/api/acts.ts';
import { momentWords } from '../../shared/api/time-words.ts';
import type { PumpDetail, WellDetail } from '../../shared/api/wells.ts';
import { nowMs } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import type { DataSource } from '../data/source.ts';
import { DAY, DAYS, MONTH, SEASON, SpanField, TellForm, textOf, WEEK } from './tell-form.tsx';

interface ActsProps {
  detail: WellDetail;
  pump: PumpDetail | undefined;
  changed: () => void;
}

export function WellActs({ detail, pump, changed }: ActsProps) {
  const { source } = useSurroundings();
  if (!source.live) return null;
  return (
    <section aria-labelledby="acts">
      <h2 id="acts">What you know and it does not</h2>
      <Visit detail={detail} changed={changed} />
      <Expected detail={detail} changed={changed} />
      <Standstill detail={detail} changed={changed} />
      {pump && <Pin detail={detail} pump={pump} changed={changed} />}
    </section>
  );
}

type PartProps = Pick<ActsProps, 'detail' | 'changed'>;

function act(to: DataSource, who: { by?: string }, written: WrittenAct): Promise<unknown> {
  return to.tell('act', {}, { act: written, ...who });
}

function untilOf(fields: FormData): string {
  return new Date(nowMs() + Number(textOf(fields, 'span'))).toISOString();
}

function Visit({ detail, changed }: PartProps) {
  const { well, mode } = detail.well;
  if (mode === 'visit')
    return (
      <div class="sheet">
        <h3>Somebody is at work on it</h3>
        <p>Nothing is raised until the visit is closed. Closing it clears what stands.</p>
        <TellForm
          button="Close the visit"
          tell={(to, fields, who) =>
            act(to, who, {
              kind: 'visit-closed',
              well,
              ...(fields.get('anew') !== null && { newBaseline: true }),
            })
          }
          done={changed}
        >
          <label>
            <input type="checkbox" name="anew" /> Pump, motor, tank or switch was changed: learn anew what is
            normal
          </label>
        </TellForm>
      </div>
    );
  return (
    <details class="more acts">
      <summary>Somebody works on it: open a visit</summary>
      <p>While a visit is open nothing is raised, and nothing is learnt. Close it when the work is done.</p>
      <TellForm
        button="Open a visit"
        tell={(to, _fields, who) => act(to, who, { kind: 'visit-opened', well })}
        done={changed}
      />
    </details>
  );
}

function Expected({ detail, changed }: PartProps) {
  const { units } = useSurroundings();
  const { well, expected, timeZone } = detail.well;
  return (
    <details class="more acts">
      <summary>More water will be used: say what is expected</summary>
      {expected && expected.untilMs > nowMs() && (
        <p>
          Expected until {momentWords(expected.untilMs, timeZone, units, nowMs())}: {expected.text}.
        </p>
      )}
      <p>Guests, a garden, a pool, a tap left trickling against frost. Till then such use is no alarm.</p>
      <TellForm
        button="Enter it"
        doneWords="Entered."
        tell={(to, fields, who) =>
          act(to, who, { kind: 'expected', well, text: textOf(fields, 'text'), until: untilOf(fields) })
        }
        done={changed}
      >
        <label>
          What <input type="text" name="text" maxLength={200} required />
        </label>
        <SpanField label="For" spans={[DAY, DAYS, WEEK, MONTH, SEASON]} />
      </TellForm>
    </details>
  );
}

function Standstill({ detail, changed }: PartProps) {
  const { well, mode } = detail.well;
  if (mode === 'out-of-service' || mode === 'laid-up')
    return (
      <div class="sheet">
        <h3>{mode === 'laid-up' ? 'It is laid up' : 'It is out of service'}</h3>
        <p>Nothing is raised meanwhile.</p>
        <TellForm
          button="Back in service"
          tell={(to, _fields, who) => act(to, who, { kind: 'back-in-service', well })}
          done={changed}
        />
      </div>
    );
  return (
    <details class="more acts">
      <summary>It will stand still: lay it up, or take it out of service</summary>
      <p>Nothing is raised meanwhile. A well that is laid up is watched again when the time is over.</p>
      <TellForm
        button="Lay it up"
        tell={(to, fields, who) => act(to, who, { kind: 'laid-up', well, until: untilOf(fields) })}
        done={changed}
      >
        <SpanField label="For" spans={[WEEK, MONTH, [90 * DAY[0], '3 months'], SEASON]} />
      </TellForm>
      <TellForm
        button="Take it out of service"
        tell={(to, _fields, who) => act(to, who, { kind: 'out-of-service', well })}
        done={changed}
      />
    </details>
  );
}

/** Quantities are written with their unit, as on the card. */
function Pin({ detail, pump, changed }: PartProps & { pump: PumpDetail }) {
  const { units } = useSurroundings();
  const pressure = units === 'us' ? '40 psi' : '276 kPa';
  return (
    <details class="more acts">
      <summary>You know what is normal: pin it</summary>
      <p>
        For figures that were measured when all was well, after a repair for example. Slow changes are then
        held against these. With units; what is left empty stays as it was learnt.
      </p>
      <TellForm
        button="Pin it"
        doneWords="Pinned."
        tell={(to, fields, who) => {
          const [amps, cutIn, cutOut] = ['amps', 'cutIn', 'cutOut'].map((name) => textOf(fields, name));
          return act(to, who, {
            kind: 'pinned',
            well: detail.well.well,
            pump: pump.pump,
            ...(amps && { amps }),
            ...(cutIn && { cutIn }),
            ...(cutOut && { cutOut }),
          });
        }}
        done={changed}
      >
        <label>
          Running amps <input type="text" name="amps" maxLength={40} placeholder="7.9 A" />
        </label>
        <label>
          Cut-in <input type="text" name="cutIn" maxLength={40} placeholder={pressure} />
        </label>
        <label>
          Cut-out{' '}
          <input
            type="text"
            name="cutOut"
            maxLength={40}
            placeholder={units === 'us' ? '60 psi' : '414 kPa'}
          />
        </label>
      </TellForm>
    </details>
  );
}
