/**
 * Files on their way to the well's logbook: what was chosen, how far each is, and what came of it.
 * Nothing of how it looks.
 */
import { useState } from 'preact/hooks';
import { rememberName, useAppContext } from '../../data/settings.ts';
import { RequestError, type RouteParams } from '../../data/source.ts';
import { documentName, uploadProblem } from '../../../shared/text/en/documents.ts';
import { texts } from './texts.ts';

export type UploadStatus =
  | { is: 'waiting' }
  | { is: 'sending'; fraction: number }
  | { is: 'saved' }
  | { is: 'refused'; reason: string };

export interface Upload {
  id: number;
  file: File;
  name: string;
  status: UploadStatus;
}

/** What is said of all of them together. */
export interface UploadDetails {
  about: string;
  text: string;
  by: string;
}

export interface Uploads {
  list: readonly Upload[];
  busy: boolean;
  choose: (files: readonly File[]) => void;
  update: (id: number, more: Partial<Upload>) => void;
  remove: (id: number) => void;
  sendAll: (details: UploadDetails) => Promise<void>;
}

export function useUploads(well: string, onSaved: () => void): Uploads {
  const { source } = useAppContext();
  const [list, setList] = useState<Upload[]>([]);
  const [busy, setBusy] = useState(false);
  const update = (id: number, more: Partial<Upload>): void =>
    setList((now) => now.map((one) => (one.id === id ? { ...one, ...more } : one)));
  const send = async ({ id, file, name }: Upload, details: RouteParams): Promise<void> => {
    update(id, { status: { is: 'sending', fraction: 0 } });
    try {
      await source.addDocument({ well, name, ...details }, file, (fraction) =>
        update(id, { status: { is: 'sending', fraction } }),
      );
      update(id, { status: { is: 'saved' } });
      onSaved();
    } catch (error) {
      const reason = error instanceof RequestError ? error.message : texts().actionFailed;
      update(id, { status: { is: 'refused', reason } });
    }
  };
  return {
    list,
    busy,
    update,
    choose: (files) =>
      setList((now) => [
        ...now.filter(({ status }) => status.is !== 'saved'),
        ...files.map((file, i) => newUpload(file, i)),
      ]),
    remove: (removedId) => setList((now) => now.filter(({ id }) => id !== removedId)),
    async sendAll(details) {
      setBusy(true);
      rememberName(details.by.trim());
      const parts = Object.entries(details)
        .map(([key, value]) => [key, value.trim()] as const)
        .filter(([, value]) => value !== '');
      // One after the other: a phone's uplink is narrow, and what is kept is kept when the line
      // breaks.
      for (const one of list.filter(({ status }) => status.is === 'waiting')) {
        // oxlint-disable-next-line no-await-in-loop
        await send(one, Object.fromEntries(parts));
      }
      setBusy(false);
    },
  };
}

let lastUploadId = 0;

function newUpload(file: File, number: number): Upload {
  const reason = uploadProblem(file);
  lastUploadId += 1;
  return {
    id: lastUploadId,
    file,
    name: documentName(file, number),
    status: reason === undefined ? { is: 'waiting' } : { is: 'refused', reason },
  };
}
