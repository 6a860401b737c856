/**
 * What people know of a well and the readings don't: that somebody works on it, that more water will be used, that it stands still, or
 * what is normal for it. Each is an act that is kept with its time; none switches anything.
 */
import type { WrittenAct } from '../../shared/api/acts.ts';
import type { PumpDetail, WellDetail } from '../../shared/api/wells.ts';
import { useSurroundings } from '../data/settings.ts';
import type { DataSource } from '../data/source.ts';
import { bookAddress } from '../page-of.ts';
import { KnownLine } from './known-line.tsx';
import { TellForm, textOf } from './tell-form.tsx';

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
      <Visit detail={detail} />
      <KnownLine detail={detail} changed={changed} />
      <Standstill detail={detail} changed={changed} />
      {pump && <Pin detail={detail} pump={pump} changed={changed} />}
    </section>
  );
}

type PartProps = Pick<ActsProps, 'detail' | 'changed'>;

function act(to: DataSource, who: { by?: string }, written: WrittenAct): Promise<unknown> {
  return to.tell('act', {}, { act: written, ...who });
}

/** Opened and closed on a page of its own, where work is written down too. */
function Visit({ detail }: Pick<PartProps, 'detail'>) {
  const { well, mode } = detail.well;
  if (mode === 'visit')
    return (
      <div class="sheet">
        <h3>Somebody is at work on it</h3>
        <p>Nothing is raised until the visit is closed.</p>
        <p>
          <a href={bookAddress(well, 'visit')}>Write down the work, or close the visit</a>
        </p>
      </div>
    );
  return (
    <p class="more">
      <a href={bookAddress(well, 'visit')}>Somebody works on it: what to bring, and open a visit</a>
    </p>
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
      <summary>It will stand still and nobody knows how long: take it out of service</summary>
      <p>
        Nothing is raised until it is put back in service. Where the end is known, lay it up in the line
        above: then it is watched again by itself.
      </p>
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
