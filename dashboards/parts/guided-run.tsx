/**
 * A reference reading with a guide: open a tap, wait for the pump, hold. The server follows the run; this asks it every two seconds, says
 * what it says, and in the end offers what the run showed, to be kept and pinned.
 */
import { useEffect, useState } from 'preact/hooks';
import type { GuidedReadingAnswer, GuidedRunAnswer, RunFollowed } from '../../shared/api/readings.ts';
import type { WellDetail } from '../../shared/api/wells.ts';
import { printQuantity, type UnitSystem } from '../../shared/quantity/print-quantity.ts';
import { MISSING_WORDS } from '../../shared/words/guided-run.ts';
import { readingWords } from '../../shared/words/reading-words.ts';
import { hearNow, nowMs } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import { AskError, type DataSource } from '../data/source.ts';
import { ClampCheckForm } from './clamp-check.tsx';
import { TellForm } from './tell-form.tsx';

const ASK_EVERY_MS = 2_000;

export function GuidedRun({ detail, changed }: { detail: WellDetail; changed: () => void }) {
  const { pumps, well } = detail;
  const [pump, setPump] = useState(pumps[0]?.pump ?? 'p1');
  const [sinceMs, setSinceMs] = useState<number>();
  return (
    <>
      <p>
        Open a tap, wait for the pump, shut the tap and hold until it stops. Running amps, cut-in, cut-out and
        the time of a fill are taken from the sensors as they see that one run. Take them when all is well, so
        that later ones can be held against them.
      </p>
      {pumps.length > 1 && (
        <label>
          Pump{' '}
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
          Begin
        </button>
      ) : (
        <Followed
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

interface FollowedProps {
  well: string;
  pump: string;
  sinceMs: number;
  stop: () => void;
  changed: () => void;
}

function Followed({ well, pump, sinceMs, stop, changed }: FollowedProps) {
  const { units } = useSurroundings();
  const { answer, failed } = useFollowed({ well, pump, sinceMs });
  return (
    <div class="sheet">
      <div role="status">
        {failed !== '' && <p class="refused">{failed}</p>}
        {answer === undefined && failed === '' && <p>Looking at the pump …</p>}
        {answer && (
          <>
            <p class="headline">{answer.says}</p>
            <p>{answer.toDo}</p>
          </>
        )}
      </div>
      {answer && answer.run.is !== 'done' && <LiveFigures answer={answer} units={units} />}
      {answer?.clamp && (answer.run.is === 'running' || answer.run.is === 'runs-already') && (
        <ClampCheckForm well={well} pump={pump} clamp={answer.clamp} changed={changed} />
      )}
      {answer?.run.is === 'done' && <KeepRun well={well} pump={pump} run={answer.run} kept={changed} />}
      <p class="seen">
        <button type="button" class="quiet" onClick={stop}>
          {answer?.run.is === 'done' || answer?.run.is === 'gave-up' ? 'Close the guide' : 'Stop the guide'}
        </button>
      </p>
    </div>
  );
}

/** Asks until the run is seen or given up. A question that fails is asked again. */
function useFollowed(of: { well: string; pump: string; sinceMs: number }): {
  answer: GuidedRunAnswer | undefined;
  failed: string;
} {
  const { well, pump, sinceMs } = of;
  const { source } = useSurroundings();
  const [answer, setAnswer] = useState<GuidedRunAnswer>();
  const [failed, setFailed] = useState('');
  useEffect(() => {
    let left = false;
    let timer = 0;
    const look = async (): Promise<void> => {
      const seen = await asked(source, { well, pump, sinceMs });
      if (left) return;
      if (typeof seen === 'string') setFailed(seen);
      else {
        setFailed('');
        setAnswer(seen);
        if (seen.run.is === 'done' || seen.run.is === 'gave-up') return;
      }
      timer = window.setTimeout(() => void look(), ASK_EVERY_MS);
    };
    void look();
    return () => {
      left = true;
      window.clearTimeout(timer);
    };
  }, [well, pump, sinceMs, source]);
  return { answer, failed };
}

async function asked(
  source: DataSource,
  { well, pump, sinceMs }: { well: string; pump: string; sinceMs: number },
): Promise<GuidedRunAnswer | string> {
  try {
    const answer = await source.ask('guidedRun', { well, since: sinceMs, pump });
    hearNow(answer);
    return answer;
  } catch (error) {
    return error instanceof AskError ? error.message : 'The run could not be followed.';
  }
}

function LiveFigures({ answer, units }: { answer: GuidedRunAnswer; units: UnitSystem }) {
  const { pressureKpa, clamp } = answer;
  return (
    <p class="live-figures">
      {pressureKpa !== undefined && <span>{printQuantity(pressureKpa, 'pressure', units)} at the tank</span>}
      {clamp && <span>{printQuantity(clamp.amps, 'current', units)} on the clamp</span>}
    </p>
  );
}

type DoneRun = Extract<RunFollowed, { is: 'done' }>;

function KeepRun(props: { well: string; pump: string; run: DoneRun; kept: () => void }) {
  const { well, pump, run, kept } = props;
  const { units } = useSurroundings();
  const [done, setDone] = useState(false);
  if (done) return <p>Kept. It stands below with the readings over the years.</p>;
  return (
    <TellForm
      class="card-form"
      button="Keep these"
      tell={(to, fields, who) => keep(to, { well, pump, run, fields, who })}
      done={() => {
        setDone(true);
        kept();
      }}
    >
      <fieldset class="field ticks">
        <legend>What the run showed</legend>
        {run.readings.map((reading) => (
          <label key={nameOf(reading)} class="tick">
            <input
              type="checkbox"
              name="take"
              value={nameOf(reading)}
              defaultChecked={reading.what !== 'fill-time'}
            />{' '}
            <span>
              {titleOf(reading)}: {readingWords(reading.what)?.say(reading.si, units)}
              {reading.what === 'fill-time' && (
                <span class="doing"> (only if every tap was shut while it ran)</span>
              )}
            </span>
          </label>
        ))}
      </fieldset>
      {run.missing.length > 0 && (
        <ul class="doing">
          {run.missing.map(({ what, because }) => (
            <li key={what}>
              {titles[what]}: {MISSING_WORDS[because]}
            </li>
          ))}
        </ul>
      )}
      {run.coarse && (
        <p class="doing">
          The readings come more than 3 s apart: both pressures lie on straight lines through what was read.
        </p>
      )}
      <label class="tick">
        <input type="checkbox" name="pinned" />
        <span>Pin them: all is well now, and later readings are held against these</span>
      </label>
    </TellForm>
  );
}

const titles = {
  amps: 'Running amps',
  'cut-in': 'Cut-in',
  'cut-out': 'Cut-out',
  'fill-time': 'Time of a fill',
};

function nameOf({ what, line }: GuidedReadingAnswer): string {
  return line === undefined ? what : `${what} ${line}`;
}

function titleOf({ what, line }: GuidedReadingAnswer): string {
  return line === undefined ? titles[what] : `${titles[what]}, line ${line}`;
}

interface Keep {
  well: string;
  pump: string;
  run: DoneRun;
  fields: FormData;
  who: { by?: string };
}

/** Each reading an entry; and what can be pinned for the watches is pinned by its act. */
async function keep(to: DataSource, { well, pump, run, fields, who }: Keep): Promise<void> {
  const wanted = new Set(fields.getAll('take'));
  const taken = run.readings.filter((reading) => wanted.has(nameOf(reading)));
  if (taken.length === 0) throw new AskError('Nothing is chosen to be kept.');
  const pinned = fields.get('pinned') !== null;
  for (const reading of taken) {
    const entry = {
      kind: 'reading',
      what: reading.what,
      value: valueOf(reading),
      pump,
      from: 'sensors',
      at: run.stopped,
      ...(reading.line !== undefined && { where: `line ${reading.line}` }),
      ...(pinned && { pinned }),
    };
    // In their order, so that a refusal leaves no later one written.
    // oxlint-disable-next-line no-await-in-loop
    await to.tell('writeEntry', { well }, { entry, ...who });
  }
  const act = pinned ? pinnedAct(taken) : undefined;
  if (act) await to.tell('act', {}, { act: { kind: 'pinned', well, pump, ...act }, ...who });
}

function valueOf({ what, si }: GuidedReadingAnswer): string {
  if (what === 'amps') return `${si.toFixed(2)} A`;
  return what === 'fill-time' ? `${Math.round(si)} s` : `${si.toFixed(1)} kPa`;
}

function pinnedAct(taken: readonly GuidedReadingAnswer[]): Record<string, string> | undefined {
  const names = { amps: 'amps', 'cut-in': 'cutIn', 'cut-out': 'cutOut' } as const;
  const values = taken.flatMap((reading) =>
    reading.what === 'fill-time' || reading.line !== undefined
      ? []
      : [[names[reading.what], valueOf(reading)] as const],
  );
  return values.length === 0 ? undefined : Object.fromEntries(values);
}
