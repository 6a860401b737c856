/** The papers of a well: kept, found, fetched, struck out. */
import { useState } from 'preact/hooks';
import type { EntryAnswer } from '../../shared/api/book.ts';
import { dateWords } from '../../shared/api/time-words.ts';
import { nowMs } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import { useAsked } from '../data/use-asked.ts';
import { BookHead } from '../parts/book-head.tsx';
import { PaperUpload } from '../parts/paper-upload.tsx';
import { Said } from '../parts/said.tsx';
import { TellForm, textOf } from '../parts/tell-form.tsx';
import {
  found,
  isShown,
  papersAmong,
  sizeWords,
  typeWords,
  type Paper,
  type StruckPaper,
} from '../../shared/words/papers.ts';

export function PapersPage({ name }: { name: string }) {
  const { source } = useSurroundings();
  const { state, again } = useAsked(`papers ${name}`, async () => {
    const [{ entries }, { well }] = await Promise.all([
      source.ask('entries', { well: name }),
      source.ask('well', { well: name }),
    ]);
    return { entries, timeZone: well.timeZone };
  });
  return (
    <>
      <BookHead well={name} what="papers" />
      <p class="lead">
        Manuals, receipts, the well log, photos of how it was wired: what gets lost when nobody keeps it.
      </p>
      <section aria-labelledby="add">
        <h2 id="add">Add papers</h2>
        <p class="doing">
          PDF, JPEG, PNG, WebP, HEIC or plain text, up to 25 MiB each. A photo inside an electrical box is for
          whoever has it open and locked out already; nobody should open one for a photo.
        </p>
        <PaperUpload well={name} kept={again} />
      </section>
      <Said state={state} what="the papers" again={again}>
        {(value) => <Papers {...value} well={name} changed={again} />}
      </Said>
    </>
  );
}

interface Of {
  well: string;
  timeZone: string;
  changed: () => void;
}

function Papers({ entries, ...of }: Of & { entries: readonly EntryAnswer[] }) {
  const [looked, look] = useState('');
  const { papers, struck } = papersAmong(entries);
  const shown = found(papers, looked);
  return (
    <section aria-labelledby="kept">
      <h2 id="kept">Kept here</h2>
      {papers.length === 0 ? (
        <p class="said">No paper is kept yet.</p>
      ) : (
        <>
          <label class="field">
            Find by name or words{' '}
            <input type="search" value={looked} onInput={(event) => look(event.currentTarget.value)} />
          </label>
          <p class="doing" role="status">
            {looked.trim() === '' ? `${papers.length} kept.` : `${shown.length} of ${papers.length} found.`}
          </p>
          <ul class="paper-list">
            {shown.map((paper) => (
              <PaperRow key={paper.entry.id} paper={paper} {...of} />
            ))}
          </ul>
        </>
      )}
      {struck.length > 0 && <Struck struck={struck} timeZone={of.timeZone} />}
    </section>
  );
}

function PaperRow({ paper, well, timeZone, changed }: Of & { paper: Paper }) {
  const { source } = useSurroundings();
  const { entry, hash, name, type, bytes, about, text } = paper;
  const address = source.address('paper', { hash });
  const when = dateWords(entry.madeMs, timeZone, nowMs());
  return (
    <li>
      {isShown(type) ? (
        <a href={address} target="_blank" rel="noopener">
          <img src={address} alt={`${name}, as a small picture`} loading="lazy" />
        </a>
      ) : (
        <span class="no-picture" aria-hidden="true">
          {typeWords(type)}
        </span>
      )}
      <div>
        <h3>{name}</h3>
        <p>
          {about !== undefined && <strong>{about}. </strong>}
          {text}
        </p>
        <p class="doing">
          {typeWords(type)}, {sizeWords(bytes)}. Kept {when}
          {entry.by !== undefined && ` by ${entry.by}`}.
        </p>
        <p>
          <a class="go" href={address} download={name}>
            Download
          </a>
        </p>
        <details class="more">
          <summary>Strike it out</summary>
          <p class="doing">
            It is no longer shown and does not go out with the well’s packet. Its entry stays, with who struck
            it out.
          </p>
          <TellForm
            button="Strike out"
            tell={(told, fields, who) => {
              const why = textOf(fields, 'why');
              const entryOf = { kind: 'struck', replaces: entry.id, ...(why !== '' && { text: why }) };
              return told.tell('writeEntry', { well }, { entry: entryOf, ...who });
            }}
            done={changed}
          >
            <label>
              Why <input type="text" name="why" maxLength={2_000} />
            </label>
          </TellForm>
        </details>
      </div>
    </li>
  );
}

function Struck({ struck, timeZone }: { struck: readonly StruckPaper[]; timeZone: string }) {
  const { source } = useSurroundings();
  return (
    <details class="more">
      <summary>Struck out: {struck.length}</summary>
      <ul>
        {struck.map(({ entry, name, hash, by }) => (
          <li key={entry.id}>
            <a href={source.address('paper', { hash })} download={name}>
              {name}
            </a>
            <span class="doing">
              {' '}
              struck out {dateWords(by.madeMs, timeZone, nowMs())}
              {by.by !== undefined && ` by ${by.by}`}
              {typeof by.body['text'] === 'string' && `: ${by.body['text']}`}
            </span>
          </li>
        ))}
      </ul>
    </details>
  );
}
