/**
 * A reference reading with a guide: open a tap, wait for the pump, hold. The server follows the
 * run; this asks it every two seconds, says what it says, and in the end offers what the run
 * showed, to be kept and pinned.
 */
import { useEffect, useState } from 'preact/hooks';
import type { GuidedReadingAnswer, GuidedRunAnswer, GuidedRunState } from '../../../shared/api/readings.ts';
import type { WellDetail } from '../../../shared/api/wells.ts';
import { formatQuantity, type UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { MISSING_TEXT } from '../../../shared/text/en/checks/guided-run.ts';
import { findReadingWords } from '../../../shared/text/en/checks/reading-words.ts';
import { syncClock, nowMs } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { RequestError, type DataSource } from '../../data/source.ts';
import { ClampCheckForm } from './clamp-check.tsx';
import { ActionForm } from '../../ui/action-form.tsx';
import { texts } from './texts.ts';

const POLL_MS = 2_000;

export function GuidedRun({ detail, changed }: { detail: WellDetail; changed: () => void }) {
  const { pumps, well } = detail;
  const [pump, setPump] = useState(pumps[0]?.pump ?? 'p1');
  const [sinceMs, setSinceMs] = useState<number>();
  return (
    <>
      <p>{texts().guideIntro}</p>
      {pumps.length > 1 && (
        <label>
          {texts().pump}{' '}
          <select value={pump} onChange={(event) => setPump(event.currentTarget.value)}>
            {pumps.map((one) => (
              <option key={one.pump} value={one.pump}>
                {one.pump.slice(1)}
              </option>
            ))}
          </select>
        </label>
      )}
      {sinceMs === undefined ? (
        <button type="button" onClick={() => setSinceMs(Math.round(nowMs()))}>
          {texts().start}
        </button>
      ) : (
        <RunProgress
          key={`${pump} ${sinceMs}`}
          well={well.well}
          pump={pump}
          sinceMs={sinceMs}
          stop={() => setSinceMs(undefined)}
          changed={changed}
        />
      )}
    </>
  );
}

interface RunProgressProps {
  well: string;
  pump: string;
  sinceMs: number;
  stop: () => void;
  changed: () => void;
}

function RunProgress({ well, pump, sinceMs, stop, changed }: RunProgressProps) {
  const { units } = useAppContext();
  const { answer, failed } = useRunProgress({ well, pump, sinceMs });
  return (
    <div class="sheet">
      <div role="status">
        {failed !== '' && <p class="refused">{failed}</p>}
        {answer === undefined && failed === '' && <p>{texts().waitingForPump}</p>}
        {answer && (
          <>
            <p class="headline">{answer.text}</p>
            <p>{answer.action}</p>
          </>
        )}
      </div>
      {answer && answer.run.is !== 'done' && <LiveFigures answer={answer} units={units} />}
      {answer?.clamp && (answer.run.is === 'running' || answer.run.is === 'already-running') && (
        <ClampCheckForm well={well} pump={pump} clamp={answer.clamp} changed={changed} />
      )}
      {answer?.run.is === 'done' && <SaveRun well={well} pump={pump} run={answer.run} onSaved={changed} />}
      <p class="actions">
        <button type="button" class="quiet" onClick={stop}>
          {answer?.run.is === 'done' || answer?.run.is === 'timed-out'
            ? texts().closeGuide
            : texts().stopGuide}
        </button>
      </p>
    </div>
  );
}

/** Asks until the run is seen or given up. A question that fails is asked again. */
function useRunProgress(params: { well: string; pump: string; sinceMs: number }): {
  answer: GuidedRunAnswer | undefined;
  failed: string;
} {
  const { well, pump, sinceMs } = params;
  const { source } = useAppContext();
  const [answer, setAnswer] = useState<GuidedRunAnswer>();
  const [failed, setFailed] = useState('');
  useEffect(() => {
    let cancelled = false;
    let timer = 0;
    const poll = async (): Promise<void> => {
      const result = await fetchRun(source, { well, pump, sinceMs });
      if (cancelled) return;
      if (typeof result === 'string') setFailed(result);
      else {
        setFailed('');
        setAnswer(result);
        if (result.run.is === 'done' || result.run.is === 'timed-out') return;
      }
      timer = window.setTimeout(() => void poll(), POLL_MS);
    };
    void poll();
    return () => {
      cancelled = true;
      window.clearTimeout(timer);
    };
  }, [well, pump, sinceMs, source]);
  return { answer, failed };
}

async function fetchRun(
  source: DataSource,
  { well, pump, sinceMs }: { well: string; pump: string; sinceMs: number },
): Promise<GuidedRunAnswer | string> {
  try {
    const answer = await source.get('guidedRun', { well, since: sinceMs, pump });
    syncClock(answer);
    return answer;
  } catch (error) {
    return error instanceof RequestError ? error.message : texts().cannotFollow;
  }
}

function LiveFigures({ answer, units }: { answer: GuidedRunAnswer; units: UnitSystem }) {
  const { pressureKpa, clamp } = answer;
  return (
    <p class="live-figures">
      {pressureKpa !== undefined && (
        <span>{texts().atTank(formatQuantity(pressureKpa, 'pressure', units))}</span>
      )}
      {clamp && <span>{texts().onClamp(formatQuantity(clamp.amps, 'current', units))}</span>}
    </p>
  );
}

type DoneRun = Extract<GuidedRunState, { is: 'done' }>;

function SaveRun(props: { well: string; pump: string; run: DoneRun; onSaved: () => void }) {
  const { well, pump, run, onSaved } = props;
  const { units } = useAppContext();
  const [done, setDone] = useState(false);
  if (done) return <p>{texts().savedBelow}</p>;
  return (
    <ActionForm
      class="card-form"
      button={texts().saveReadings}
      submit={(to, fields, actor) => saveReadings(to, { well, pump, run, fields, actor })}
      done={() => {
        setDone(true);
        onSaved();
      }}
    >
      <fieldset class="field ticks">
        <legend>{texts().runResults}</legend>
        {run.readings.map((reading) => (
          <label key={nameOf(reading)} class="tick">
            <input
              type="checkbox"
              name="take"
              value={nameOf(reading)}
              defaultChecked={reading.kind !== 'fill-time'}
            />{' '}
            <span>
              {titleOf(reading)}: {findReadingWords(reading.kind)?.format(reading.si, units)}
              {reading.kind === 'fill-time' && <span class="secondary"> {texts().fillCondition}</span>}
            </span>
          </label>
        ))}
      </fieldset>
      {run.missing.length > 0 && (
        <ul class="secondary">
          {run.missing.map(({ kind, reason }) => (
            <li key={kind}>
              {texts().titles[kind]}: {MISSING_TEXT[reason]}
            </li>
          ))}
        </ul>
      )}
      {run.coarse && <p class="secondary">{texts().coarse}</p>}
      <label class="tick">
        <input type="checkbox" name="pinned" />
        <span>{texts().pinAll}</span>
      </label>
    </ActionForm>
  );
}

function nameOf({ kind, phase }: GuidedReadingAnswer): string {
  return phase === undefined ? kind : `${kind} ${phase}`;
}

function titleOf({ kind, phase }: GuidedReadingAnswer): string {
  return phase === undefined ? texts().titles[kind] : texts().titleOfLine(texts().titles[kind], phase);
}

interface SaveParams {
  well: string;
  pump: string;
  run: DoneRun;
  fields: FormData;
  actor: { by?: string };
}

/** Each reading an entry; and what can be pinned for the watches is pinned by its act. */
async function saveReadings(
  source: DataSource,
  { well, pump, run, fields, actor }: SaveParams,
): Promise<void> {
  const wanted = new Set(fields.getAll('take'));
  const selected = run.readings.filter((reading) => wanted.has(nameOf(reading)));
  if (selected.length === 0) throw new RequestError(texts().nothingChosen);
  const pinned = fields.get('pinned') !== null;
  for (const reading of selected) {
    const entry = {
      kind: 'reading',
      what: reading.kind,
      value: valueOf(reading),
      pump,
      from: 'sensors',
      at: run.stopped,
      ...(reading.phase !== undefined && { where: texts().line(reading.phase) }),
      ...(pinned && { pinned }),
    };
    // In their order, so that a refusal leaves no later one written.
    // oxlint-disable-next-line no-await-in-loop
    await source.post('writeEntry', { well }, { entry, ...actor });
  }
  const act = pinned ? pinnedAct(selected) : undefined;
  if (act) await source.post('act', {}, { act: { kind: 'pinned', well, pump, ...act }, ...actor });
}

function valueOf({ kind, si }: GuidedReadingAnswer): string {
  if (kind === 'amps') return `${si.toFixed(2)} A`;
  return kind === 'fill-time' ? `${Math.round(si)} s` : `${si.toFixed(1)} kPa`;
}

function pinnedAct(selected: readonly GuidedReadingAnswer[]): Record<string, string> | undefined {
  const names = { amps: 'amps', 'cut-in': 'cutIn', 'cut-out': 'cutOut' } as const;
  const values = selected.flatMap((reading) =>
    reading.kind === 'fill-time' || reading.phase !== undefined
      ? []
      : [[names[reading.kind], valueOf(reading)] as const],
  );
  return values.length === 0 ? undefined : Object.fromEntries(values);
}
