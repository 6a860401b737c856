/**
 * What people know of a well and the readings don't: that somebody works on it, that more water
 * will be used, that it stands still, or what is normal for it. Each is an act that is kept with
 * its time; none switches anything.
 */
import { formatQuantity } from '../../../shared/quantity/format-quantity.ts';
import type { WrittenAct } from '../../../shared/acts/act-fields.ts';
import type { PumpDetail, WellDetail } from '../../../shared/api/wells.ts';
import { useAppContext } from '../../data/settings.ts';
import type { DataSource } from '../../data/source.ts';
import { logbookUrl } from '../../page-url.ts';
import { WellNotes } from './well-notes.tsx';
import { ActionForm, textOf } from '../../ui/action-form.tsx';
import { texts } from './texts.ts';

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
      <h2 id="acts">{texts().tellStillwell}</h2>
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
        <h3>{texts().visitIsOpen}</h3>
        <p>{texts().alarmsAreSuppressedDuring}</p>
        <p>
          <a href={logbookUrl(well, 'visit')}>{texts().openVisitPage}</a>
        </p>
      </div>
    );
  return (
    <p class="more">
      <a href={logbookUrl(well, 'visit')}>{texts().startVisit}</a>
    </p>
  );
}

function OutOfServiceForm({ detail, changed }: SectionProps) {
  const { well, mode } = detail.well;
  if (mode === 'out-of-service' || mode === 'laid-up')
    return (
      <div class="sheet">
        <h3>{mode === 'laid-up' ? texts().laidUp : texts().outOfService}</h3>
        <p>{texts().suppressedUntilBack}</p>
        <ActionForm
          button={texts().backInService}
          submit={(to, _fields, actor) => sendAct(to, actor, { kind: 'back-in-service', well })}
          done={changed}
        />
      </div>
    );
  return (
    <details class="more acts">
      <summary>{texts().takeOutOfService}</summary>
      <p>{texts().outOfServiceHelp}</p>
      <ActionForm
        button={texts().takeOut}
        submit={(to, _fields, actor) => sendAct(to, actor, { kind: 'out-of-service', well })}
        done={changed}
      />
    </details>
  );
}

/** Quantities are written with their unit, as on the card. */
function PinForm({ detail, pump, changed }: SectionProps & { pump: PumpDetail }) {
  const { units } = useAppContext();
  const example = (kpa: number): string => formatQuantity(kpa, 'pressure', units);
  return (
    <details class="more acts">
      <summary>{texts().pinNormal}</summary>
      <p>{texts().pinHelp}</p>
      <ActionForm
        button={texts().pin}
        doneMessage={texts().pinned}
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
          {texts().runningAmps}{' '}
          <input type="text" name="amps" maxLength={40} placeholder={texts().ampsExample} />
        </label>
        <label>
          {texts().cutIn} <input type="text" name="cutIn" maxLength={40} placeholder={example(276)} />
        </label>
        <label>
          {texts().cutOut} <input type="text" name="cutOut" maxLength={40} placeholder={example(414)} />
        </label>
      </ActionForm>
    </details>
  );
}
