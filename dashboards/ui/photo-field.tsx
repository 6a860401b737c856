/**
 * Photos and documents that go with an entry: from the camera or from the files of the phone. They
 * are kept first, each under the hash of its bytes, and the entry then points to them; one that was
 * kept and is not pointed to is found among the documents.
 */
import { MAX_DOCUMENTS } from '../../shared/entries/limits.ts';
import { RequestError, type DataSource } from '../data/source.ts';
import { documentName, uploadProblem } from '../../shared/text/en/documents.ts';
import { texts } from './texts.ts';

export function PhotoField({ label, documents }: { label: string; documents?: boolean }) {
  return (
    <div class="field photos">
      <label>
        {label} <input type="file" name="photos" accept="image/*" capture="environment" multiple />
      </label>
      <label>
        {documents ? texts().orReportFile : texts().orFromDevice}{' '}
        <input
          type="file"
          name="photos"
          accept={documents ? 'image/*,application/pdf' : 'image/*'}
          multiple
        />
      </label>
    </div>
  );
}

/** Keeps what was chosen and gives the hashes. `about` stands with each among the documents. */
export async function uploadPhotos(
  source: DataSource,
  fields: FormData,
  details: { well: string; about: string; by?: string },
): Promise<string[]> {
  const files = fields.getAll('photos').filter((one): one is File => one instanceof File && one.size > 0);
  const hashes: string[] = [];
  if (files.length > MAX_DOCUMENTS)
    throw new RequestError(texts().tooManyPhotos(MAX_DOCUMENTS, files.length));
  for (const [at, file] of files.entries()) {
    const refused = uploadProblem(file);
    if (refused !== undefined) throw new RequestError(`${documentName(file, at)}: ${refused}`);
    // One after the other: a phone's uplink is narrow, and the first that is refused stops the
    // rest.
    // oxlint-disable-next-line no-await-in-loop
    const { entry } = await source.addDocument({ ...details, name: documentName(file, at) }, file);
    hashes.push(entry.body.hash);
  }
  return [...new Set(hashes)];
}

/** What goes into the entry: nothing where there is nothing. */
export function documentsField(hashes: readonly string[]): { papers?: string[] } {
  return hashes.length === 0 ? {} : { papers: [...hashes] };
}

/** Links to documents by their number. */
export function DocumentLinks({ documents }: { documents: readonly string[] }) {
  if (documents.length === 0) return null;
  return (
    <span class="document-links">
      {documents.map((hash, at) => (
        <a key={hash} href={`/api/documents/${hash}`} target="_blank" rel="noopener">
          {documents.length === 1 ? texts().photoOrDocument : texts().photoOrDocumentNo(at + 1)}
        </a>
      ))}
    </span>
  );
}
