/** Files on their way to the well's book: what was chosen, how far each is, and what came of it. Nothing of how it looks. */
import { useState } from 'preact/hooks';
import { rememberName, useSurroundings } from '../data/settings.ts';
import { AskError, type Parts } from '../data/source.ts';
import { nameFor, refusedBefore } from '../../shared/words/papers.ts';

export type Way =
  { is: 'waiting' } | { is: 'going'; share: number } | { is: 'kept' } | { is: 'refused'; why: string };

export interface Chosen {
  id: number;
  file: File;
  name: string;
  way: Way;
}

/** What is said of all of them together. */
export interface SaidOfAll {
  about: string;
  text: string;
  by: string;
}

export interface UseSending {
  list: readonly Chosen[];
  busy: boolean;
  choose: (files: readonly File[]) => void;
  put: (id: number, more: Partial<Chosen>) => void;
  leaveOut: (id: number) => void;
  sendAll: (said: SaidOfAll) => Promise<void>;
}

export function useSending(well: string, kept: () => void): UseSending {
  const { source } = useSurroundings();
  const [list, setList] = useState<Chosen[]>([]);
  const [busy, setBusy] = useState(false);
  const put = (id: number, more: Partial<Chosen>): void =>
    setList((now) => now.map((one) => (one.id === id ? { ...one, ...more } : one)));
  const send = async ({ id, file, name }: Chosen, said: Parts): Promise<void> => {
    put(id, { way: { is: 'going', share: 0 } });
    try {
      await source.addPaper({ well, name, ...said }, file, (share) =>
        put(id, { way: { is: 'going', share } }),
      );
      put(id, { way: { is: 'kept' } });
      kept();
    } catch (error) {
      const why = error instanceof AskError ? error.message : 'That did not work.';
      put(id, { way: { is: 'refused', why } });
    }
  };
  return {
    list,
    busy,
    put,
    choose: (files) =>
      setList((now) => [
        ...now.filter(({ way }) => way.is !== 'kept'),
        ...files.map((file, i) => chosen(file, i)),
      ]),
    leaveOut: (left) => setList((now) => now.filter(({ id }) => id !== left)),
    async sendAll(said) {
      setBusy(true);
      rememberName(said.by.trim());
      const parts = Object.entries(said)
        .map(([key, value]) => [key, value.trim()] as const)
        .filter(([, value]) => value !== '');
      // One after the other: a phone's uplink is narrow, and what is kept is kept when the line breaks.
      for (const one of list.filter(({ way }) => way.is === 'waiting')) {
        // oxlint-disable-next-line no-await-in-loop
        await send(one, Object.fromEntries(parts));
      }
      setBusy(false);
    },
  };
}

let chosenSoFar = 0;

function chosen(file: File, number: number): Chosen {
  const why = refusedBefore(file);
  chosenSoFar += 1;
  return {
    id: chosenSoFar,
    file,
    name: nameFor(file, number),
    way: why === undefined ? { is: 'waiting' } : { is: 'refused', why },
  };
}
