/** How a form becomes an entry with its photos: what cannot be so is told at its field before anything is sent, and so is what the server refuses. */
import { useState } from 'preact/hooks';
import { AskError, type DataSource } from '../data/source.ts';
import { LOOK_AT_FIELDS, refusedField } from '../words/refused-field.ts';
import type { Reasons } from './field.tsx';
import { keepPhotos, papersOf } from './photo-field.tsx';

export interface EntryForm {
  well: string;
  /** What the photos are of. */
  about: string;
  /** The entry as typed, or why a field cannot be so. */
  read: (fields: FormData) => { entry: Record<string, unknown> } | { reasons: Reasons };
}

type Tell = (to: DataSource, fields: FormData, who: { by?: string }) => Promise<void>;

export function useEntryTelling({ well, about, read }: EntryForm): { reasons: Reasons; tell: Tell } {
  const [reasons, setReasons] = useState<Reasons>({});
  const tell: Tell = async (to, fields, who) => {
    const found = read(fields);
    if ('reasons' in found) {
      setReasons(found.reasons);
      throw new AskError(LOOK_AT_FIELDS);
    }
    setReasons({});
    const photos = await keepPhotos(to, fields, { well, about, ...who });
    try {
      await to.tell('writeEntry', { well }, { entry: { ...found.entry, ...papersOf(photos) }, ...who });
    } catch (error) {
      const refused = refusedField(error);
      if (refused) setReasons({ [refused.field]: refused.reason });
      throw error;
    }
  };
  return { reasons, tell };
}
