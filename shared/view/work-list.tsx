/** Work that was written down: what was done, the parts that went in, by whom, its photos. */
import type { ComponentChildren } from 'preact';
import type { EntryAnswer } from '../api/logbook.ts';

export interface WorkListProps {
  work: readonly EntryAnswer[];
  /** The day of each, where it is not said around the list. */
  day?: (atMs: number) => string;
  photos?: (props: { hashes: readonly string[]; name: string }) => ComponentChildren;
}

export function WorkList({ work, ...props }: WorkListProps) {
  if (work.length === 0) return <p class="status">No work is recorded.</p>;
  return (
    <ul class="work">
      {work.map((entry) => (
        <Work key={entry.id} entry={entry} {...props} />
      ))}
    </ul>
  );
}

function Work({ entry, day, photos }: { entry: EntryAnswer } & Omit<WorkListProps, 'work'>) {
  const { body, by, atMs } = entry;
  const [done, text, doneBy] = ['done', 'text', 'doneBy'].map((key) => textIn(body[key]));
  const [parts, touched, hashes] = ['parts', 'touched', 'papers'].map((key) => listIn(body[key]));
  const details = [
    touched && touched.length > 0 ? `Touched ${touched.join(', ')}` : '',
    doneBy ? `done by ${doneBy}` : '',
    by === undefined ? '' : `recorded by ${by}`,
    text ?? '',
  ];
  return (
    <li>
      <p>
        {day && `${day(atMs)}: `}
        <strong>{done}</strong>
      </p>
      {parts && parts.length > 0 && <p>Parts: {parts.join('; ')}</p>}
      <p class="secondary">{details.filter((detail) => detail !== '').join('; ')}</p>
      {photos?.({ hashes: hashes ?? [], name: done ?? 'Work' })}
    </li>
  );
}

function textIn(value: unknown): string | undefined {
  return typeof value === 'string' ? value : undefined;
}

function listIn(value: unknown): string[] {
  return Array.isArray(value) ? value.filter((item) => typeof item === 'string') : [];
}
