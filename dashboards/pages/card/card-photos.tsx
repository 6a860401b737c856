/**
 * Photos of the wiring, kept as documents. They are for whoever has the box open and locked out
 * already, by right and by trade: nobody is asked to open one.
 */
import { useState } from 'preact/hooks';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { rememberedName, useAppContext } from '../../data/settings.ts';
import { RequestError } from '../../data/source.ts';
import { documentName } from '../../../shared/text/en/documents.ts';
import { texts } from './texts.ts';

export interface CardPhotosProps {
  well: string;
  /** Hashes, one a line. */
  text: string;
  refused: string | undefined;
  change: (text: string) => void;
}

export function CardPhotos({ well, text, refused, change }: CardPhotosProps) {
  const { source } = useAppContext();
  const [message, setMessage] = useState('');
  const hashes = text.split('\n').filter((hash) => hash !== '');
  const add = async (files: FileList | null): Promise<void> => {
    const file = files?.[0];
    if (!file) return;
    setMessage(texts().savingPhoto);
    const by = rememberedName();
    try {
      const { entry } = await source.addDocument(
        { well, name: documentName(file, hashes.length), about: 'wiring', ...(by !== '' && { by }) },
        file,
      );
      const { hash } = entry.body;
      if (!hashes.includes(hash)) change([...hashes, hash].join('\n'));
      setMessage('');
    } catch (error) {
      setMessage(error instanceof RequestError ? error.message : texts().photoNotSaved);
    }
  };
  return (
    <fieldset class="card-photos">
      <legend>{texts().wiringPhotos}</legend>
      <p class="secondary">{texts().wiringPhotosCaution(CAUTIONS.electrician)}</p>
      <ul>
        {hashes.map((hash, at) => (
          <li key={hash}>
            <a href={`/api/documents/${hash}`} target="_blank" rel="noreferrer">
              <img src={`/api/documents/${hash}`} alt={texts().wiringPhoto(at + 1)} loading="lazy" />
            </a>
            <button
              type="button"
              class="quiet"
              onClick={() => change(hashes.filter((one) => one !== hash).join('\n'))}
            >
              {texts().removePhoto(at + 1)}
            </button>
          </li>
        ))}
      </ul>
      <label>
        {texts().addAPhoto}{' '}
        <input
          type="file"
          accept="image/*"
          onChange={(event) => {
            void add(event.currentTarget.files);
            event.currentTarget.value = '';
          }}
        />
      </label>
      <p role="status">{message}</p>
      {refused !== undefined && <p class="refused">{refused}</p>}
    </fieldset>
  );
}
