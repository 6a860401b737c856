/** The documents of a well: kept, found, fetched, struck out. */
import { useState } from 'preact/hooks';
import type { Entry } from '../../../shared/entries/entry.ts';
import { dateWords } from '../../../shared/text/en/time-words.ts';
import { nowMs } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { LogbookHead } from '../../ui/logbook-head.tsx';
import { DocumentUpload } from './document-upload.tsx';
import { RequestView } from '../../ui/request-view.tsx';
import { ActionForm, textOf } from '../../ui/action-form.tsx';
import {
  searchDocuments,
  isViewable,
  documentsAmong,
  fileSizeText,
  fileTypeText,
  type LogbookDocument,
  type VoidedDocument,
} from '../../../shared/text/en/documents.ts';
import { texts } from './texts.ts';

export function DocumentsPage({ name }: { name: string }) {
  const { source } = useAppContext();
  const { state, reload } = useRequest(`documents ${name}`, async () => {
    const [{ entries }, { well }] = await Promise.all([
      source.get('entries', { well: name }),
      source.get('well', { well: name }),
    ]);
    return { entries, timeZone: well.timeZone };
  });
  return (
    <>
      <LogbookHead well={name} page="documents" />
      <p class="lead">{texts().intro}</p>
      <section aria-labelledby="add">
        <h2 id="add">{texts().addDocuments}</h2>
        <p class="secondary">{texts().addHelp}</p>
        <DocumentUpload well={name} onSaved={reload} />
      </section>
      <RequestView state={state} subject={texts().subject} reload={reload}>
        {(value) => <Documents {...value} well={name} changed={reload} />}
      </RequestView>
    </>
  );
}

interface ListProps {
  well: string;
  timeZone: string;
  changed: () => void;
}

function Documents({ entries, ...of }: ListProps & { entries: readonly Entry[] }) {
  const [query, setQuery] = useState('');
  const { documents, voided } = documentsAmong(entries);
  const shown = searchDocuments(documents, query);
  return (
    <section aria-labelledby="documents">
      <h2 id="documents">{texts().savedDocuments}</h2>
      {documents.length === 0 ? (
        <p class="status">{texts().none}</p>
      ) : (
        <>
          <label class="field">
            {texts().find}{' '}
            <input type="search" value={query} onInput={(event) => setQuery(event.currentTarget.value)} />
          </label>
          <p class="secondary" role="status">
            {query.trim() === ''
              ? texts().count(documents.length)
              : texts().found(shown.length, documents.length)}
          </p>
          <ul class="document-list">
            {shown.map((document) => (
              <DocumentRow key={document.entry.id} document={document} {...of} />
            ))}
          </ul>
        </>
      )}
      {voided.length > 0 && <Voided voided={voided} timeZone={of.timeZone} />}
    </section>
  );
}

function DocumentRow({ document, well, timeZone, changed }: ListProps & { document: LogbookDocument }) {
  const { source } = useAppContext();
  const { entry, hash, name, type, bytes, about, text } = document;
  const address = source.fileUrl('document', { hash });
  const when = dateWords(entry.createdMs, timeZone, nowMs());
  return (
    <li>
      {isViewable(type) ? (
        <a href={address} target="_blank" rel="noopener">
          <img src={address} alt={texts().preview(name)} loading="lazy" />
        </a>
      ) : (
        <span class="no-picture" aria-hidden="true">
          {fileTypeText(type)}
        </span>
      )}
      <div>
        <h3>{name}</h3>
        <p>
          {about !== undefined && <strong>{about}. </strong>}
          {text}
        </p>
        <p class="secondary">
          {fileTypeText(type)}, {fileSizeText(bytes)}. {texts().savedOn(when, entry.by)}
        </p>
        <p>
          <a class="go" href={address} download={name}>
            {texts().download}
          </a>
        </p>
        <details class="more">
          <summary>{texts().voidDocument}</summary>
          <p class="secondary">{texts().voidHelp}</p>
          <ActionForm
            button={texts().void}
            submit={(formSource, fields, actor) => {
              const why = textOf(fields, 'why');
              const voidEntry = { kind: 'struck', replaces: entry.id, ...(why !== '' && { text: why }) };
              return formSource.post('writeEntry', { well }, { entry: voidEntry, ...actor });
            }}
            done={changed}
          >
            <label>
              {texts().reason} <input type="text" name="why" maxLength={2_000} />
            </label>
          </ActionForm>
        </details>
      </div>
    </li>
  );
}

function Voided({ voided, timeZone }: { voided: readonly VoidedDocument[]; timeZone: string }) {
  const { source } = useAppContext();
  return (
    <details class="more">
      <summary>{texts().voided(voided.length)}</summary>
      <ul>
        {voided.map(({ entry, name, hash, voidedBy }) => (
          <li key={entry.id}>
            <a href={source.fileUrl('document', { hash })} download={name}>
              {name}
            </a>
            <span class="secondary">
              {' '}
              {texts().voidedOn(dateWords(voidedBy.createdMs, timeZone, nowMs()), voidedBy.by)}
              {voidedBy.body.text !== undefined && `: ${voidedBy.body.text}`}
            </span>
          </li>
        ))}
      </ul>
    </details>
  );
}
