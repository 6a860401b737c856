/** Work that was written down: what was done, the parts that went in, by whom, photos. */
import type { EntryAnswer } from '../../../shared/api/logbook.ts';
import { PhotoRow } from '../../ui/photo-row.tsx';

export function WorkList({ work }: { work: readonly EntryAnswer[] }) {
  if (work.length === 0) return <p class="status">No work is written down.</p>;
  return (
    <ul class="work">
      {work.map((entry) => (
        <Work key={entry.id} entry={entry} />
      ))}
    </ul>
  );
}

function Work({ entry: { body, by } }: { entry: EntryAnswer }) {
  const [done, text, doneBy] = ['done', 'text', 'doneBy'].map((key) => textIn(body[key]));
  const [parts, touched, documents] = ['parts', 'touched', 'papers'].map((key) => listIn(body[key]));
  return (
    <li>
      <p>
        <strong>{done}</strong>
      </p>
      {parts && parts.length > 0 && <p>Parts: {parts.join('; ')}</p>}
      <p class="secondary">
        {[
          touched && touched.length > 0 ? `Touched ${touched.join(', ')}` : '',
          doneBy ? `done by ${doneBy}` : '',
          by === undefined ? '' : `written by ${by}`,
          text ?? '',
        ]
          .filter((word) => word !== '')
          .join('; ')}
      </p>
      <PhotoRow hashes={documents ?? []} name={done ?? 'Work'} />
    </li>
  );
}

function textIn(value: unknown): string | undefined {
  return typeof value === 'string' ? value : undefined;
}

function listIn(value: unknown): string[] {
  return Array.isArray(value) ? value.filter((item) => typeof item === 'string') : [];
}
