/**
 * Imports a well from another Stillwell. Nothing here is changed by it; what was added is listed.
 */
import { useState } from 'preact/hooks';
import type { Answer } from '../../shared/api/routes.ts';
import { useAppContext } from '../data/settings.ts';
import { wellUrl } from '../page-url.ts';
import { nameText } from '../../shared/text/en/names.ts';
import { ActionForm } from './action-form.tsx';

export function ImportForm() {
  const { source } = useAppContext();
  const [progress, setProgress] = useState<number>();
  const [imported, setImported] = useState<Answer<'importWell'>>();
  if (!source.live) return null;
  return (
    <section aria-labelledby="import">
      <h2 id="import">Import a well from another Stillwell</h2>
      <p>
        The ZIP brings everything recorded about the well, with its documents. The page alone leaves out the
        documents. Nothing recorded here is changed.
      </p>
      <ActionForm
        button="Import"
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
          ZIP or page <input type="file" name="export" accept=".zip,.html" required />
        </label>
        <label class="tick">
          <input type="checkbox" name="sameWell" />
          <span>The well of this name that is already here is the same well</span>
        </label>
      </ActionForm>
      {progress !== undefined && (
        <p>
          <progress value={progress} max={1} aria-label="Upload progress" />{' '}
          {progress < 1 ? `${Math.round(progress * 100)} %` : 'Reading the file …'}
        </p>
      )}
      {imported && (
        <div class="sheet" role="status">
          {imported.summary.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
          <p>
            <a class="go" href={wellUrl(imported.well)}>
              To {nameText(imported.well)}
            </a>
          </p>
        </div>
      )}
    </section>
  );
}
