/**
 * Papers and photos on their way to the well's logbook: chosen, named, sent one after the other.
 * Each shows how far it is; one that is refused says why and stays, and the others go on.
 */
import { useState } from 'preact/hooks';
import { rememberedName, useAppContext } from '../../data/settings.ts';
import { uploadProblem, fileSizeText } from '../../../shared/text/en/documents.ts';
import { useUploads, type Upload, type UploadDetails, type UploadStatus } from './use-uploads.ts';
import { texts } from './texts.ts';

export function DocumentUpload({ well, onSaved }: { well: string; onSaved: () => void }) {
  const { source } = useAppContext();
  const { list, busy, choose, update, remove, sendAll } = useUploads(well, onSaved);
  const [details, setDetails] = useState<UploadDetails>(() => ({
    about: '',
    text: '',
    by: rememberedName(),
  }));
  if (!source.live) return null;
  const waitingCount = list.filter(({ status }) => status.is === 'waiting').length;
  return (
    <div class="upload">
      <FileInputs busy={busy} choose={choose} />
      {list.length > 0 && (
        <>
          <ul class="uploads">
            {list.map((one) => (
              <UploadRow
                key={one.id}
                upload={one}
                busy={busy}
                rename={(name) => update(one.id, { name })}
                remove={() => remove(one.id)}
                retry={() => update(one.id, { status: { is: 'waiting' } })}
              />
            ))}
          </ul>
          <DetailsFields details={details} setDetails={setDetails} />
          <button type="button" disabled={busy || waitingCount === 0} onClick={() => void sendAll(details)}>
            {texts().saveDocuments(waitingCount)}
          </button>
          <p role="status">{statusWords(list)}</p>
        </>
      )}
    </div>
  );
}

function FileInputs({ busy, choose }: { busy: boolean; choose: (files: readonly File[]) => void }) {
  const chooseFrom = (input: HTMLInputElement): void => {
    choose([...(input.files ?? [])]);
    // So that the same photo can be chosen again after it was left out.
    input.value = '';
  };
  return (
    <div class="fields">
      <label class="file-input">
        {texts().takePhoto}{' '}
        <input
          type="file"
          accept="image/*"
          capture="environment"
          disabled={busy}
          onChange={(event) => chooseFrom(event.currentTarget)}
        />
      </label>
      <label class="file-input">
        {texts().chooseFiles}{' '}
        <input
          type="file"
          multiple
          accept="image/*,application/pdf,text/plain"
          disabled={busy}
          onChange={(event) => chooseFrom(event.currentTarget)}
        />
      </label>
    </div>
  );
}

function DetailsFields({
  details,
  setDetails,
}: {
  details: UploadDetails;
  setDetails: (details: UploadDetails) => void;
}) {
  const { about, text, by } = details;
  return (
    <div class="fields">
      <label class="field">
        {texts().about}{' '}
        <input
          type="text"
          list="document-kinds"
          maxLength={120}
          placeholder={texts().aboutExample}
          value={about}
          onInput={(event) => setDetails({ ...details, about: event.currentTarget.value })}
        />
      </label>
      <datalist id="document-kinds">
        {texts().kinds.map((kind) => (
          <option key={kind} value={kind} />
        ))}
      </datalist>
      <label class="field">
        {texts().keywords}{' '}
        <input
          type="text"
          maxLength={2_000}
          value={text}
          onInput={(event) => setDetails({ ...details, text: event.currentTarget.value })}
        />
      </label>
      <label class="field">
        {texts().yourName}{' '}
        <input
          type="text"
          autocomplete="name"
          maxLength={80}
          value={by}
          onInput={(event) => setDetails({ ...details, by: event.currentTarget.value })}
        />
      </label>
    </div>
  );
}

function UploadRow(props: {
  upload: Upload;
  busy: boolean;
  rename: (name: string) => void;
  remove: () => void;
  retry: () => void;
}) {
  const { upload, busy, rename, remove, retry } = props;
  const { name, file, status } = upload;
  const open = status.is === 'waiting' || status.is === 'refused';
  return (
    <li class={`is-${status.is}`}>
      <label class="field">
        {texts().name}{' '}
        <input
          type="text"
          maxLength={120}
          value={name}
          disabled={!open || busy}
          onInput={(e) => rename(e.currentTarget.value)}
        />
      </label>
      <p class="secondary">{fileSizeText(file.size)}</p>
      <UploadStatusText status={status} name={name} />
      {open && !busy && (
        <p class="actions">
          {status.is === 'refused' && uploadProblem(file) === undefined && (
            <button type="button" onClick={retry}>
              {texts().tryAgain}
            </button>
          )}
          <button type="button" class="quiet" onClick={remove}>
            {texts().leaveOut}
          </button>
        </p>
      )}
    </li>
  );
}

function UploadStatusText({ status, name }: { status: UploadStatus; name: string }) {
  switch (status.is) {
    case 'waiting':
      return null;
    case 'sending':
      return (
        <p>
          <progress value={status.fraction} max={1} aria-label={texts().uploading(name)} />{' '}
          {Math.round(status.fraction * 100)} %
        </p>
      );
    case 'saved':
      return <p>{texts().saved}</p>;
    case 'refused':
      return <p class="reason">{status.reason}</p>;
    default:
      return status satisfies never;
  }
}

function statusWords(list: readonly Upload[]): string {
  const count = (is: UploadStatus['is']): number => list.filter(({ status }) => status.is === is).length;
  const [saved, refused] = [count('saved'), count('refused')];
  if (saved + refused === 0) return '';
  return texts().uploaded(saved, refused);
}
