/** A well from nothing: its name and its time zone. What else is known of it goes onto its card. */
import { useState } from 'preact/hooks';
import { rememberedName, rememberName, useAppContext } from '../../data/settings.ts';
import { RequestError } from '../../data/source.ts';
import { logbookUrl } from '../../page-url.ts';
import { TimeZones } from '../../ui/card-field.tsx';
import { ImportForm } from '../../ui/import-form.tsx';
import { nameFor } from '../../../shared/card/card-form.ts';

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
      if (!(error instanceof RequestError)) setMessage('That did not work.');
      else setMessage(error.status === 409 ? `There is a card of ${well} already.` : error.message);
    }
  };
  return (
    <>
      <p class="back">
        <a href="#/">All wells</a>
      </p>
      <h1>A new well</h1>
      <p class="lead">Give it a name. All else can be written on its card, now or later.</p>
      {source.live && (
        <form
          class="card-form"
          onSubmit={(event) => {
            event.preventDefault();
            void createWell();
          }}
        >
          <TimeZones />
          <div class="field">
            <label for="well-name">What you call it</label>
            <input
              id="well-name"
              type="text"
              maxLength={60}
              placeholder="Barn by the creek"
              value={words}
              onInput={(event) => setWords(event.currentTarget.value)}
            />
            {well !== '' && (
              <p class="secondary">
                It is kept as <b>{well}</b>. The node of that name belongs to it, unless its card says
                otherwise.
              </p>
            )}
          </div>
          <div class="field">
            <label for="well-zone">Time zone, where the well is</label>
            <input
              id="well-zone"
              type="text"
              list="time-zones"
              value={zone}
              onInput={(event) => setZone(event.currentTarget.value)}
            />
          </div>
          <div class="field">
            <label for="well-by">Your name</label>
            <input
              id="well-by"
              type="text"
              autocomplete="name"
              maxLength={80}
              value={name}
              onInput={(event) => setName(event.currentTarget.value)}
            />
          </div>
          <button type="submit" disabled={well === ''}>
            Create well
          </button>
          <p role="status">{message}</p>
        </form>
      )}
      <ImportForm />
    </>
  );
}
