/**
 * Writes down work and its parts in a visit. What was typed stays when the server refuses it, and
 * goes when it is kept.
 */
import { useState } from 'preact/hooks';
import { uploadPhotos, documentsField, PhotoField } from '../../ui/photo-field.tsx';
import { ActionForm, textOf } from '../../ui/action-form.tsx';
import { texts } from './texts.ts';

export function WorkForm({ well, visit, changed }: { well: string; visit: string; changed: () => void }) {
  const [round, setRound] = useState(0);
  return (
    <ActionForm
      key={round}
      class="card-form"
      button={texts().save}
      submit={async (to, fields, actor) => {
        const [done, parts, doneBy] = ['done', 'parts', 'doneBy'].map((name) => textOf(fields, name));
        const listed = (parts ?? '').split('\n').map((line) => line.trim());
        const photos = await uploadPhotos(to, fields, { well, about: 'visit', ...actor });
        const touched = fields.getAll('touched');
        await to.post(
          'writeEntry',
          { well },
          {
            entry: {
              kind: 'work',
              done: (done ?? '').replaceAll(/\s*\n\s*/g, '; '),
              visit,
              ...(parts && { parts: listed.filter((line) => line !== '') }),
              ...(touched.length > 0 && { touched }),
              ...(doneBy && { doneBy }),
              ...documentsField(photos),
            },
            ...actor,
          },
        );
      }}
      done={() => {
        setRound(round + 1);
        changed();
      }}
    >
      <label class="field">
        {texts().workDone} <textarea name="done" rows={2} maxLength={2000} required />
      </label>
      <label class="field">
        {texts().partsInstalled} <textarea name="parts" rows={2} maxLength={4000} />
      </label>
      <fieldset class="field ticks">
        <legend>{texts().affected}</legend>
        {Object.entries(texts().partsOfWork).map(([name, word]) => (
          <label key={name} class="tick">
            <input type="checkbox" name="touched" value={name} /> {word}
          </label>
        ))}
      </fieldset>
      <label class="field">
        {texts().doneByField} <input type="text" name="doneBy" maxLength={120} />
      </label>
      <p class="secondary">{texts().boxPhotoCaution}</p>
      <PhotoField label={texts().workPhotos} />
    </ActionForm>
  );
}
