/**
 * Papers and photos on their way to the well's book: chosen, named, sent one after the other. Each shows how far it is; one that is refused
 * says why and stays, and the others go on.
 */
import { useState } from 'preact/hooks';
import { rememberedName, rememberName, useSurroundings } from '../data/settings.ts';
import { AskError } from '../data/source.ts';
import { nameFor, refusedBefore, sizeWords } from '../words/papers.ts';

type Way =
  { is: 'waiting' } | { is: 'going'; share: number } | { is: 'kept' } | { is: 'refused'; why: string };

interface Chosen {
  id: number;
  file: File;
  name: string;
  way: Way;
}

export function PaperUpload({ well, kept }: { well: string; kept: () => void }) {
  const { source } = useSurroundings();
  const [list, setList] = useState<Chosen[]>([]);
  const [about, setAbout] = useState('');
  const [text, setText] = useState('');
  const [by, setBy] = useState(rememberedName);
  const [busy, setBusy] = useState(false);
  if (!source.live) return null;
  const put = (id: number, more: Partial<Chosen>): void =>
    setList((now) => now.map((one) => (one.id === id ? { ...one, ...more } : one)));
  const choose = (input: HTMLInputElement): void => {
    const files = [...(input.files ?? [])];
    setList((now) => [
      ...now.filter(({ way }) => way.is !== 'kept'),
      ...files.map((file, i) => chosen(file, i)),
    ]);
    // So that the same photo can be chosen again after it was left out.
    input.value = '';
  };
  const send = async ({ id, file, name }: Chosen): Promise<void> => {
    const who = by.trim();
    const said = {
      well,
      name,
      ...(about !== '' && { about }),
      ...(text !== '' && { text }),
      ...(who !== '' && { by: who }),
    };
    put(id, { way: { is: 'going', share: 0 } });
    try {
      await source.addPaper(said, file, (share) => put(id, { way: { is: 'going', share } }));
      put(id, { way: { is: 'kept' } });
      kept();
    } catch (error) {
      put(id, {
        way: { is: 'refused', why: error instanceof AskError ? error.message : 'That did not work.' },
      });
    }
  };
  const sendAll = async (): Promise<void> => {
    setBusy(true);
    rememberName(by.trim());
    // One after the other: a phone's uplink is narrow, and what is kept is kept when the line breaks.
    for (const one of list.filter(({ way }) => way.is === 'waiting')) {
      // oxlint-disable-next-line no-await-in-loop
      await send(one);
    }
    setBusy(false);
  };
  const waiting = list.filter(({ way }) => way.is === 'waiting').length;
  return (
    <div class="upload">
      <div class="fields">
        <label class="take">
          Take a photo{' '}
          <input
            type="file"
            accept="image/*"
            capture="environment"
            disabled={busy}
            onChange={(e) => choose(e.currentTarget)}
          />
        </label>
        <label class="take">
          Choose photos or files{' '}
          <input
            type="file"
            multiple
            accept="image/*,application/pdf,text/plain"
            disabled={busy}
            onChange={(e) => choose(e.currentTarget)}
          />
        </label>
      </div>
      {list.length > 0 && (
        <>
          <ul class="sending">
            {list.map((one) => (
              <Sending
                key={one.id}
                one={one}
                busy={busy}
                rename={(name) => put(one.id, { name })}
                leaveOut={() => setList((now) => now.filter(({ id }) => id !== one.id))}
                again={() => put(one.id, { way: { is: 'waiting' } })}
              />
            ))}
          </ul>
          <div class="fields">
            <label class="field">
              What they are{' '}
              <input
                type="text"
                list="kinds-of-papers"
                maxLength={120}
                placeholder="well log, receipt, manual, photo of the tank"
                value={about}
                onInput={(e) => setAbout(e.currentTarget.value)}
              />
            </label>
            <datalist id="kinds-of-papers">
              {KINDS.map((kind) => (
                <option key={kind} value={kind} />
              ))}
            </datalist>
            <label class="field">
              Words to find them by{' '}
              <input
                type="text"
                maxLength={2_000}
                value={text}
                onInput={(e) => setText(e.currentTarget.value)}
              />
            </label>
            <label class="field">
              Your name{' '}
              <input
                type="text"
                autocomplete="name"
                maxLength={80}
                value={by}
                onInput={(e) => setBy(e.currentTarget.value)}
              />
            </label>
          </div>
          <button type="button" disabled={busy || waiting === 0} onClick={() => void sendAll()}>
            {waiting === 1 ? 'Keep it' : `Keep ${waiting === 0 ? 'them' : `all ${waiting}`}`}
          </button>
          <p role="status">{statusWords(list)}</p>
        </>
      )}
    </div>
  );
}

const KINDS = ['well log', 'manual', 'receipt', 'laboratory report', 'permit', 'photo'];

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

function Sending(props: {
  one: Chosen;
  busy: boolean;
  rename: (name: string) => void;
  leaveOut: () => void;
  again: () => void;
}) {
  const { one, busy, rename, leaveOut, again } = props;
  const { name, file, way } = one;
  const open = way.is === 'waiting' || way.is === 'refused';
  return (
    <li class={`is-${way.is}`}>
      <label class="field">
        Name{' '}
        <input
          type="text"
          maxLength={120}
          value={name}
          disabled={!open || busy}
          onInput={(e) => rename(e.currentTarget.value)}
        />
      </label>
      <p class="doing">{sizeWords(file.size)}</p>
      <WayWords way={way} name={name} />
      {open && !busy && (
        <p class="seen">
          {way.is === 'refused' && refusedBefore(file) === undefined && (
            <button type="button" onClick={again}>
              Try again
            </button>
          )}
          <button type="button" class="quiet" onClick={leaveOut}>
            Leave out
          </button>
        </p>
      )}
    </li>
  );
}

function WayWords({ way, name }: { way: Way; name: string }) {
  switch (way.is) {
    case 'waiting':
      return null;
    case 'going':
      return (
        <p>
          <progress value={way.share} max={1} aria-label={`${name} on its way`} />{' '}
          {Math.round(way.share * 100)} %
        </p>
      );
    case 'kept':
      return <p>Kept.</p>;
    case 'refused':
      return <p class="reason">{way.why}</p>;
    default:
      return way satisfies never;
  }
}

function statusWords(list: readonly Chosen[]): string {
  const count = (is: Way['is']): number => list.filter(({ way }) => way.is === is).length;
  const [kept, refused] = [count('kept'), count('refused')];
  if (kept + refused === 0) return '';
  return `${kept} kept${refused > 0 ? `, ${refused} not kept: see why at each` : ''}.`;
}
