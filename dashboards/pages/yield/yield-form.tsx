/**
 * A timed drawdown as it was written at the well, a line a reading; or filled in from what the
 * level sensor saw, for a person to look over.
 */
import { useState } from 'preact/hooks';
import type { MeasuredTest, YieldTestsAnswer } from '../../../shared/api/figures/yield-tests.ts';
import { entryMoment } from '../../../shared/notes/entry-day.ts';
import { formatQuantity, type UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { localDate, momentWords } from '../../../shared/text/en/time-words.ts';
import { writtenLine } from '../../../shared/text/en/yield-tests.ts';
import { useAppContext } from '../../data/settings.ts';
import { RequestError, type DataSource } from '../../data/source.ts';
import { ActionForm, textOf } from '../../ui/action-form.tsx';
import { texts } from './texts.ts';

interface Written {
  date: string;
  static: string;
  flow: string;
  points: string;
  recovery: string;
  from: 'hand' | 'sensors';
}

export interface YieldFormProps {
  well: string;
  value: YieldTestsAnswer;
  changed: () => void;
}

export function YieldForm({ well, value, changed }: YieldFormProps) {
  const { units } = useAppContext();
  const empty: Written = { date: value.today, static: '', flow: '', points: '', recovery: '', from: 'hand' };
  const [written, setWritten] = useState(empty);
  const { measured, timeZone } = value;
  const set = (key: keyof Written) => (text: string) => setWritten({ ...written, [key]: text });
  return (
    <ActionForm
      class="card-form"
      button={texts().save}
      doneMessage={texts().saved}
      submit={(source, fields, actor) => send(source, { well, written, fields, actor, value })}
      done={() => {
        setWritten(empty);
        changed();
      }}
    >
      {measured && (
        <p>
          <button
            type="button"
            class="quiet"
            onClick={() => setWritten(writtenFrom(measured, { timeZone, units }))}
          >
            {texts().fromSensors(momentWords(measured.startedMs, timeZone, units, value.nowMs))}
          </button>{' '}
          <span class="secondary">{texts().sensorsHelp}</span>
        </p>
      )}
      <div class="fields">
        <label class="field">
          {texts().date}
          <input
            type="date"
            name="date"
            max={value.today}
            value={written.date}
            onInput={(event) => set('date')(event.currentTarget.value)}
          />
        </label>
        <Line name="static" written={written} set={set} />
        <Line name="flow" written={written} set={set} />
      </div>
      <Lines name="points" written={written} set={set} />
      <Lines name="recovery" written={written} set={set} />
      <div class="fields">
        <label class="field">
          {texts().doneBy}
          <input type="text" name="doneBy" maxLength={120} />
        </label>
        <label class="field">
          {texts().remark}
          <input type="text" name="text" maxLength={2000} />
        </label>
      </div>
    </ActionForm>
  );
}

interface InputProps<K extends keyof Written> {
  name: K;
  written: Written;
  set: (key: K) => (text: string) => void;
}

function Line({ name, written, set }: InputProps<'static' | 'flow'>) {
  const { units } = useAppContext();
  return (
    <label class="field">
      {texts()[name]}
      <input
        type="text"
        name={name}
        maxLength={40}
        placeholder={texts().examples[name][units]}
        value={written[name]}
        onInput={(event) => set(name)(event.currentTarget.value)}
      />
    </label>
  );
}

function Lines({ name, written, set }: InputProps<'points' | 'recovery'>) {
  const { units } = useAppContext();
  return (
    <label class="field">
      {texts()[name]}
      <textarea
        name={name}
        rows={name === 'points' ? 8 : 4}
        placeholder={texts().examples[name][units]}
        value={written[name]}
        onInput={(event) => set(name)(event.currentTarget.value)}
      />
    </label>
  );
}

function writtenFrom(
  { startedMs, staticM, flowLPerS, points, recovery }: MeasuredTest,
  { timeZone, units }: { timeZone: string; units: UnitSystem },
): Written {
  return {
    date: localDate(startedMs, timeZone),
    static: formatQuantity(staticM, 'length', units, 1),
    flow: flowLPerS === undefined ? '' : formatQuantity(flowLPerS, 'flow', units, 2),
    points: points.map((point) => writtenLine(point, units)).join('\n'),
    recovery: recovery.map((point) => writtenLine(point, units)).join('\n'),
    from: 'sensors',
  };
}

interface Sent {
  well: string;
  written: Written;
  fields: FormData;
  actor: { by?: string };
  value: YieldTestsAnswer;
}

async function send(source: DataSource, { well, written, fields, actor, value }: Sent): Promise<void> {
  const when = entryMoment(written.date, value);
  if ('reason' in when) throw new RequestError(when.reason);
  const recovery = linesOf(written.recovery);
  const texts = (['doneBy', 'text'] as const).map((key) => [key, textOf(fields, key)] as const);
  const quantities = (['static', 'flow'] as const).map((key) => [key, written[key].trim()] as const);
  const entry = {
    kind: 'yield-test',
    at: when.at,
    from: written.from,
    points: linesOf(written.points),
    ...(recovery.length > 0 && { recovery }),
    ...Object.fromEntries([...texts, ...quantities].filter(([, text]) => text !== '')),
  };
  await source.post('writeEntry', { well }, { entry, ...actor });
}

function linesOf(text: string): string[] {
  return text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
}
