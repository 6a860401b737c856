/**
 * Photos of the wiring, kept as papers. They are for whoever has the box open and locked out already, by right and by trade: nobody is
 * asked to open one.
 */
import { useState } from 'preact/hooks';
import { CAUTIONS } from '../../shared/words/cautions.ts';
import { rememberedName, useSurroundings } from '../data/settings.ts';
import { AskError } from '../data/source.ts';
import { nameFor } from '../../shared/words/papers.ts';

export interface CardPhotosProps {
  well: string;
  /** Hashes, one a line. */
  text: string;
  refused: string | undefined;
  change: (text: string) => void;
}

export function CardPhotos({ well, text, refused, change }: CardPhotosProps) {
  const { source } = useSurroundings();
  const [said, setSaid] = useState('');
  const hashes = text.split('\n').filter((hash) => hash !== '');
  const add = async (files: FileList | null): Promise<void> => {
    const file = files?.[0];
    if (!file) return;
    setSaid('Keeping the photo …');
    const by = rememberedName();
    try {
      const { entry } = await source.addPaper(
        { well, name: nameFor(file, hashes.length), about: 'wiring', ...(by !== '' && { by }) },
        file,
      );
      const hash = entry.body['hash'];
      if (typeof hash === 'string' && !hashes.includes(hash)) change([...hashes, hash].join('\n'));
      setSaid('');
    } catch (error) {
      setSaid(error instanceof AskError ? error.message : 'The photo could not be kept.');
    }
  };
  return (
    <fieldset class="card-photos">
      <legend>Photos of the wiring</legend>
      <p class="doing">
        For whoever has a box open and locked out already. If it is closed, leave it closed.{' '}
        {CAUTIONS.electrician}
      </p>
      <ul>
        {hashes.map((hash, at) => (
          <li key={hash}>
            <a href={`/api/papers/${hash}`} target="_blank" rel="noreferrer">
              <img src={`/api/papers/${hash}`} alt={`Photo ${at + 1} of the wiring`} loading="lazy" />
            </a>
            <button
              type="button"
              class="quiet"
              onClick={() => change(hashes.filter((one) => one !== hash).join('\n'))}
            >
              Take photo {at + 1} off the card
            </button>
          </li>
        ))}
      </ul>
      <label>
        Add a photo{' '}
        <input
          type="file"
          accept="image/*"
          onChange={(event) => {
            void add(event.currentTarget.files);
            event.currentTarget.value = '';
          }}
        />
      </label>
      <p role="status">{said}</p>
      {refused !== undefined && <p class="refused">{refused}</p>}
    </fieldset>
  );
}
