/**
 * How a form becomes an entry with its photos: what cannot be so is told at its field before
 * anything is sent, and so is what the server refuses.
 */
import { useState } from 'preact/hooks';
import { RequestError, type DataSource } from '../data/source.ts';
import { refusedField } from '../words/refused-field.ts';
import type { Reasons } from './field.tsx';
import { uploadPhotos, documentsField } from './photo-field.tsx';
import { texts } from './texts.ts';

export interface EntryForm {
  well: string;
  /** What the photos are of. */
  about: string;
  /** The entry as typed, or why a field cannot be so. */
  read: (fields: FormData) => { entry: Record<string, unknown> } | { reasons: Reasons };
}

type SubmitEntry = (to: DataSource, fields: FormData, actor: { by?: string }) => Promise<void>;

export function useEntryForm({ well, about, read }: EntryForm): { reasons: Reasons; submit: SubmitEntry } {
  const [reasons, setReasons] = useState<Reasons>({});
  const submit: SubmitEntry = async (to, fields, actor) => {
    const found = read(fields);
    if ('reasons' in found) {
      setReasons(found.reasons);
      throw new RequestError(texts().seeFields);
    }
    setReasons({});
    const photos = await uploadPhotos(to, fields, { well, about, ...actor });
    try {
      await to.post(
        'writeEntry',
        { well },
        { entry: { ...found.entry, ...documentsField(photos) }, ...actor },
      );
    } catch (error) {
      const refused = refusedField(error);
      if (refused) setReasons({ [refused.field]: refused.reason });
      throw error;
    }
  };
  return { reasons, submit };
}
