/**
 * What somebody knows of the well in one line with its end: guests until Sunday, the lawn until the
 * 20th, laid up until April. What was understood stands under the line before it is sent; it ends
 * by itself. What was said before is listed.
 */
import { useState } from 'preact/hooks';
import type { WrittenAct } from '../../../shared/acts/act-fields.ts';
import { momentWords } from '../../../shared/text/en/time-words.ts';
import type { WellDetail } from '../../../shared/api/wells.ts';
import { parseNote, type ParsedNote } from '../../../shared/notes/parse-note.ts';
import { actNote } from '../../../shared/notes/act-note.ts';
import { untilWords } from '../../../shared/notes/until-words.ts';
import { nowMs } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { RequestError } from '../../data/source.ts';
import { useRequest } from '../../data/use-request.ts';
import { ActionForm } from '../../ui/action-form.tsx';
import { texts } from './texts.ts';

export function WellNotes({ detail, changed }: { detail: WellDetail; changed: () => void }) {
  const { units } = useAppContext();
  const { well, expected, timeZone } = detail.well;
  const [round, setRound] = useState(0);
  return (
    <details class="more acts">
      <summary>{texts().noteSummary}</summary>
      {expected && expected.untilMs > nowMs() && (
        <p>{texts().expectedUntil(untilWords(expected.untilMs, timeZone, units, nowMs()), expected.text)}</p>
      )}
      <p>{texts().noteHelp}</p>
      <NoteForm
        key={round}
        well={well}
        timeZone={timeZone}
        done={() => {
          setRound(round + 1);
          changed();
        }}
      />
      <p role="status">{round > 0 && texts().saved}</p>
      <NoteHistory key={`past ${round}`} well={well} timeZone={timeZone} />
    </details>
  );
}

function NoteForm({ well, timeZone, done }: { well: string; timeZone: string; done: () => void }) {
  const { units } = useAppContext();
  const [line, setLine] = useState('');
  const [is, setIs] = useState<'expected' | 'laid-up'>();
  const known = parseNote(line, nowMs(), timeZone);
  const kind = 'problem' in known ? undefined : (is ?? known.is);
  return (
    <ActionForm
      class="card-form"
      button={texts().save}
      submit={async (to, _fields, actor) => {
        const now = parseNote(line, nowMs(), timeZone);
        if ('problem' in now) throw new RequestError(now.problem);
        await to.post('act', {}, { act: actFrom(well, { ...now, is: is ?? now.is }), ...actor });
      }}
      done={done}
    >
      <label class="field">
        {texts().note}
        <input
          type="text"
          maxLength={200}
          placeholder={texts().noteExample}
          value={line}
          onInput={(event) => setLine(event.currentTarget.value)}
        />
      </label>
      <p role="status" class={'problem' in known && line !== '' ? 'refused' : undefined}>
        {'problem' in known
          ? line !== '' && known.problem
          : texts().understood(known.text, untilWords(known.untilMs, timeZone, units, nowMs()))}
      </p>
      {kind !== undefined && (
        <fieldset class="field ticks">
          <legend>{texts().meaning}</legend>
          <label class="tick">
            <input type="radio" name="is" checked={kind === 'expected'} onChange={() => setIs('expected')} />{' '}
            {texts().unusualUse}
          </label>
          <label class="tick">
            <input type="radio" name="is" checked={kind === 'laid-up'} onChange={() => setIs('laid-up')} />{' '}
            {texts().laidUpMeaning}
          </label>
        </fieldset>
      )}
    </ActionForm>
  );
}

function actFrom(well: string, { is, text, untilMs }: Exclude<ParsedNote, { problem: string }>): WrittenAct {
  const until = new Date(untilMs).toISOString();
  return is === 'expected' ? { kind: 'expected', well, text, until } : { kind: 'laid-up', well, until, text };
}

/** Newest first; what is in force says so. */
function NoteHistory({ well, timeZone }: { well: string; timeZone: string }) {
  const { source, units } = useAppContext();
  const acts = useRequest(`known ${well}`, () => source.get('wellActs', { well }));
  if (acts.state.is !== 'ready') return null;
  const notes = acts.state.value.acts
    .filter(({ kind }) => kind === 'expected' || kind === 'laid-up')
    .reverse();
  if (notes.length === 0) return null;
  const when = (ms: number): string => momentWords(ms, timeZone, units, nowMs());
  return (
    <>
      <h3>{texts().history}</h3>
      <ul class="well-notes">
        {notes.map(({ id, atMs, by, kind, body }) => {
          const { text, untilMs } = actNote(kind, body);
          return (
            <li key={id}>
              <strong>{text}</strong>
              <span class="secondary">
                {`, ${texts().noteFacts({ until: untilMs === undefined ? undefined : untilWords(untilMs, timeZone, units, nowMs()), inForce: untilMs !== undefined && untilMs > nowMs(), entered: when(atMs), by })}`}
              </span>
            </li>
          );
        })}
      </ul>
    </>
  );
}
