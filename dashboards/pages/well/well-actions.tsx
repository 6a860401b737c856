/**
 * What people know of a well and the readings don't: that somebody works on it, that more water
 * will be used, that it stands still, or what is normal for it. Each is an act that is kept with
 * its time; none switches anything.
 */
import type { WrittenAct } from '../../../shared/acts/act-fields.ts';
import type { PumpDetail, WellDetail } from '../../../shared/api/wells.ts';
import { useAppContext } from '../../data/settings.ts';
import type { DataSource } from '../../data/source.ts';
import { logbookUrl } from '../../page-url.ts';
import { WellNotes } from './well-notes.tsx';
import { ActionForm, textOf } from '../../ui/action-form.tsx';

interface ActionsProps {
  detail: WellDetail;
  pump: PumpDetail | undefined;
  changed: () => void;
}

export function WellActions({ detail, pump, changed }: ActionsProps) {
  const { source } = useAppContext();
  if (!source.live) return null;
  return (
    <section aria-labelledby="acts">
      <h2 id="acts">Tell Stillwell (guests, irrigation, out of service)</h2>
      <VisitLink detail={detail} />
      <WellNotes detail={detail} changed={changed} />
      <OutOfServiceForm detail={detail} changed={changed} />
      {pump && <PinForm detail={detail} pump={pump} changed={changed} />}
    </section>
  );
}

type SectionProps = Pick<ActionsProps, 'detail' | 'changed'>;

function sendAct(source: DataSource, actor: { by?: string }, json: WrittenAct): Promise<unknown> {
  return source.post('act', {}, { act: json, ...actor });
}

/** Opened and closed on a page of its own, where work is written down too. */
function VisitLink({ detail }: Pick<SectionProps, 'detail'>) {
  const { well, mode } = detail.well;
  if (mode === 'visit')
    return (
      <div class="sheet">
        <h3>Somebody is at work on it</h3>
        <p>Alarms are suppressed during the visit.</p>
        <p>
          <a href={logbookUrl(well, 'visit')}>Write down the work, or close the visit</a>
        </p>
      </div>
    );
  return (
    <p class="more">
      <a href={logbookUrl(well, 'visit')}>Somebody works on it: what to bring, and open a visit</a>
    </p>
  );
}

function OutOfServiceForm({ detail, changed }: SectionProps) {
  const { well, mode } = detail.well;
  if (mode === 'out-of-service' || mode === 'laid-up')
    return (
      <div class="sheet">
        <h3>{mode === 'laid-up' ? 'It is laid up' : 'It is out of service'}</h3>
        <p>Alarms are suppressed until then.</p>
        <ActionForm
          button="Back in service"
          submit={(to, _fields, actor) => sendAct(to, actor, { kind: 'back-in-service', well })}
          done={changed}
        />
      </div>
    );
  return (
    <details class="more acts">
      <summary>Take the well out of service, with no end date</summary>
      <p>
        Alarms are suppressed until it is back in service. Where the end is known, lay it up in the line
        above: then it is watched again by itself.
      </p>
      <ActionForm
        button="Take it out of service"
        submit={(to, _fields, actor) => sendAct(to, actor, { kind: 'out-of-service', well })}
        done={changed}
      />
    </details>
  );
}

/** Quantities are written with their unit, as on the card. */
function PinForm({ detail, pump, changed }: SectionProps & { pump: PumpDetail }) {
  const { units } = useAppContext();
  const pressure = units === 'us' ? '40 psi' : '276 kPa';
  return (
    <details class="more acts">
      <summary>You know what is normal: pin it</summary>
      <p>
        For figures that were measured when all was well, after a repair for example. Slow changes are then
        held against these. With units; what is left empty stays as it was learnt.
      </p>
      <ActionForm
        button="Pin it"
        doneMessage="Pinned."
        submit={(to, fields, actor) => {
          const [amps, cutIn, cutOut] = ['amps', 'cutIn', 'cutOut'].map((name) => textOf(fields, name));
          return sendAct(to, actor, {
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
      </ActionForm>
    </details>
  );
}
