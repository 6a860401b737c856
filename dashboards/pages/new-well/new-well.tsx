/** A well from nothing: its name and its time zone. What else is known of it goes onto its card. */
import { useState } from 'preact/hooks';
import { rememberedName, rememberName, useAppContext } from '../../data/settings.ts';
import { RequestError } from '../../data/source.ts';
import { logbookUrl } from '../../page-url.ts';
import { TimeZones } from '../../ui/card-field.tsx';
import { ImportForm } from '../../ui/import-form.tsx';
import { nameFor } from '../../../shared/card/card-form.ts';
import { texts } from './texts.ts';

export function NewWellPage() {
  const { source } = useAppContext();
  const [words, setWords] = useState('');
  const [zone, setZone] = useState(() => Intl.DateTimeFormat().resolvedOptions().timeZone);
  const [name, setName] = useState(rememberedName);
  const [message, setMessage] = useState('');
  const well = nameFor(words);
  const createWell = async (): Promise<void> => {
    const by = name.trim();
    rememberName(by);
    try {
      const card = { well, timeZone: zone.trim() };
      await source.post('writeCard', { well }, { card, ...(by !== '' && { by }) });
      location.hash = logbookUrl(well, 'card');
    } catch (error) {
      if (!(error instanceof RequestError)) setMessage(texts().actionFailed);
      else setMessage(error.status === 409 ? texts().cardExists(well) : error.message);
    }
  };
  return (
    <>
      <p class="back">
        <a href="#/">{texts().allWells}</a>
      </p>
      <h1>{texts().title}</h1>
      <p class="lead">{texts().intro}</p>
      {source.live && (
        <form
          class="card-form"
          onSubmit={(event) => {
            event.preventDefault();
            void createWell();
          }}
        >
          <TimeZones />
          <Fields {...{ well, words, setWords, zone, setZone, name, setName }} />
          <button type="submit" disabled={well === ''}>
            {texts().create}
          </button>
          <p role="status">{message}</p>
        </form>
      )}
      <ImportForm />
    </>
  );
}

interface FieldsProps {
  well: string;
  words: string;
  setWords: (words: string) => void;
  zone: string;
  setZone: (zone: string) => void;
  name: string;
  setName: (name: string) => void;
}

function Fields({ well, words, setWords, zone, setZone, name, setName }: FieldsProps) {
  return (
    <>
      <div class="field">
        <label for="well-name">{texts().name}</label>
        <input
          id="well-name"
          type="text"
          maxLength={60}
          placeholder={texts().barnByTheCreek}
          value={words}
          onInput={(event) => setWords(event.currentTarget.value)}
        />
        {well !== '' && (
          <p class="secondary">
            {texts().savedAs} <b>{well}</b>. {texts().nodeOfThatName}
          </p>
        )}
      </div>
      <div class="field">
        <label for="well-zone">{texts().timeZone}</label>
        <input
          id="well-zone"
          type="text"
          list="time-zones"
          value={zone}
          onInput={(event) => setZone(event.currentTarget.value)}
        />
      </div>
      <div class="field">
        <label for="well-by">{texts().yourName}</label>
        <input
          id="well-by"
          type="text"
          autocomplete="name"
          maxLength={80}
          value={name}
          onInput={(event) => setName(event.currentTarget.value)}
        />
      </div>
    </>
  );
}
