/**
 * Photos and papers that go with an entry: from the camera or from the files of the phone. They are kept first, each under the hash of its
 * bytes, and the entry then points to them; one that was kept and is not pointed to is found among the papers.
 */
import { AskError, type DataSource } from '../data/source.ts';
import { nameFor, refusedBefore } from '../../shared/words/papers.ts';

/** As the server's limit for one entry (src/book/limits.ts). */
const MOST_PHOTOS = 20;

export function PhotoField({ label, papers }: { label: string; papers?: boolean }) {
  return (
    <div class="field photos">
      <label>
        {label} <input type="file" name="photos" accept="image/*" capture="environment" multiple />
      </label>
      <label>
        {papers ? 'Or the report as a file' : 'Or from the files of this device'}{' '}
        <input type="file" name="photos" accept={papers ? 'image/*,application/pdf' : 'image/*'} multiple />
      </label>
    </div>
  );
}

/** Keeps what was chosen and gives the hashes. `about` stands with each among the papers. */
export async function keepPhotos(
  source: DataSource,
  fields: FormData,
  of: { well: string; about: string; by?: string },
): Promise<string[]> {
  const files = fields.getAll('photos').filter((one): one is File => one instanceof File && one.size > 0);
  const hashes: string[] = [];
  if (files.length > MOST_PHOTOS)
    throw new AskError(`At most ${MOST_PHOTOS} photos go with one entry, and ${files.length} were chosen.`);
  for (const [at, file] of files.entries()) {
    const refused = refusedBefore(file);
    if (refused !== undefined) throw new AskError(`${nameFor(file, at)}: ${refused}`);
    // One after the other: a phone's uplink is narrow, and the first that is refused stops the rest.
    // oxlint-disable-next-line no-await-in-loop
    const { entry } = await source.addPaper({ ...of, name: nameFor(file, at) }, file);
    const { hash } = entry.body;
    if (typeof hash === 'string') hashes.push(hash);
  }
  return [...new Set(hashes)];
}

/** What goes into the entry: nothing where there is nothing. */
export function papersOf(hashes: readonly string[]): { papers?: string[] } {
  return hashes.length === 0 ? {} : { papers: [...hashes] };
}

/** Links to papers by their number. */
export function PaperLinks({ papers }: { papers: readonly string[] }) {
  if (papers.length === 0) return null;
  return (
    <span class="papers">
      {papers.map((hash, at) => (
        <a key={hash} href={`/api/papers/${hash}`} target="_blank" rel="noopener">
          {papers.length === 1 ? 'Photo or paper' : `Photo or paper ${at + 1}`}
        </a>
      ))}
    </span>
  );
}
