/** Work that was written down: what was done, the parts that went in, by whom, its photos. */
import type { ComponentChildren } from 'preact';
import type { EntryOf } from '../entries/entry.ts';
import { texts } from './texts.ts';

export interface WorkListProps {
  work: readonly EntryOf<'work'>[];
  /** The day of each, where it is not said around the list. */
  day?: (atMs: number) => string;
  photos?: (props: { hashes: readonly string[]; name: string }) => ComponentChildren;
}

export function WorkList({ work, ...props }: WorkListProps) {
  if (work.length === 0) return <p class="status">{texts().noWork}</p>;
  return (
    <ul class="work">
      {work.map((entry) => (
        <Work key={entry.id} entry={entry} {...props} />
      ))}
    </ul>
  );
}

function Work({ entry, day, photos }: { entry: EntryOf<'work'> } & Omit<WorkListProps, 'work'>) {
  const { body, by, atMs } = entry;
  const { done, text, doneBy, parts = [], touched = [], papers = [] } = body;
  const details = [texts().workBy({ affected: touched, doneBy, recordedBy: by }), text ?? ''];
  return (
    <li>
      <p>
        {day && `${day(atMs)}: `}
        <strong>{done}</strong>
      </p>
      {parts.length > 0 && <p>{texts().partsUsed(parts.join('; '))}</p>}
      <p class="secondary">{details.filter((detail) => detail !== '').join(' ')}</p>
      {photos?.({ hashes: papers, name: done })}
    </li>
  );
}
