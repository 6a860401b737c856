/** Links to what is said of parts, in one line. */
import { PART_WORDS } from '../../shared/text/en/parts/parts.ts';
import type { Part } from '../../shared/text/en/parts/part-words.ts';
import { partUrl } from '../page-url.ts';

export function PartLinks({ lead, parts }: { lead: string; parts: readonly Part[] }) {
  const own = [...new Set(parts)];
  if (own.length === 0) return null;
  return (
    <p class="part-links">
      {lead}{' '}
      {own.map((part, at) => (
        <>
          {at > 0 && ', '}
          <a key={part} href={partUrl(part)}>
            {PART_WORDS[part].name.toLowerCase()}
          </a>
        </>
      ))}
    </p>
  );
}
