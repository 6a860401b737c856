/**
 * Imports a well from another Stillwell. Nothing here is changed by it; what was added is listed.
 */
import { useState } from 'preact/hooks';
import type { Answer } from '../../shared/api/routes.ts';
import { useAppContext } from '../data/settings.ts';
import { wellUrl } from '../page-url.ts';
import { nameText } from '../../shared/text/en/names.ts';
import { ActionForm } from './action-form.tsx';
import { texts } from './texts.ts';

export function ImportForm() {
  const { source } = useAppContext();
  const [progress, setProgress] = useState<number>();
  const [imported, setImported] = useState<Answer<'importWell'>>();
  if (!source.live) return null;
  return (
    <section aria-labelledby="import">
      <h2 id="import">{texts().importWell}</h2>
      <p>{texts().importHelp}</p>
      <ActionForm
        button={texts().import}
        class="action-form form"
        submit={async (formSource, fields, actor) => {
          const file = fields.get('export');
          if (!(file instanceof File) || file.size === 0) return;
          setImported(undefined);
          setProgress(0);
          const sameWell = fields.get('sameWell') === null ? {} : { sameWell: true };
          try {
            setImported(await formSource.importWell({ ...sameWell, ...actor }, file, setProgress));
          } finally {
            setProgress(undefined);
          }
        }}
        done={() => undefined}
      >
        <label class="file-input">
          {texts().zipOrPage} <input type="file" name="export" accept=".zip,.html" required />
        </label>
        <label class="tick">
          <input type="checkbox" name="sameWell" />
          <span>{texts().sameWell}</span>
        </label>
      </ActionForm>
      {progress !== undefined && (
        <p>
          <progress value={progress} max={1} aria-label={texts().uploadProgress} />{' '}
          {progress < 1 ? `${Math.round(progress * 100)} %` : texts().readingFile}
        </p>
      )}
      {imported && (
        <div class="sheet" role="status">
          {imported.summary.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
          <p>
            <a class="go" href={wellUrl(imported.well)}>
              {texts().toWell(nameText(imported.well))}
            </a>
          </p>
        </div>
      )}
    </section>
  );
}
