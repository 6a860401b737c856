/**
 * Papers and photos on their way to the well's book: chosen, named, sent one after the other. Each shows how far it is; one that is refused
 * says why and stays, and the others go on.
 */
import { useState } from 'preact/hooks';
import { rememberedName, useSurroundings } from '../data/settings.ts';
import { refusedBefore, sizeWords } from '../../shared/words/papers.ts';
import { useSending, type Chosen, type SaidOfAll, type Way } from './use-sending.ts';

export function PaperUpload({ well, kept }: { well: string; kept: () => void }) {
  const { source } = useSurroundings();
  const { list, busy, choose, put, leaveOut, sendAll } = useSending(well, kept);
  const [said, say] = useState<SaidOfAll>(() => ({ about: '', text: '', by: rememberedName() }));
  if (!source.live) return null;
  const waiting = list.filter(({ way }) => way.is === 'waiting').length;
  return (
    <div class="upload">
      <Choosing busy={busy} choose={choose} />
      {list.length > 0 && (
        <>
          <ul class="sending">
            {list.map((one) => (
              <Sending
                key={one.id}
                one={one}
                busy={busy}
                rename={(name) => put(one.id, { name })}
                leaveOut={() => leaveOut(one.id)}
                again={() => put(one.id, { way: { is: 'waiting' } })}
              />
            ))}
          </ul>
          <SaidFields said={said} say={say} />
          <button type="button" disabled={busy || waiting === 0} onClick={() => void sendAll(said)}>
            {waiting === 1 ? 'Keep it' : `Keep ${waiting === 0 ? 'them' : `all ${waiting}`}`}
          </button>
          <p role="status">{statusWords(list)}</p>
        </>
      )}
    </div>
  );
}

function Choosing({ busy, choose }: { busy: boolean; choose: (files: readonly File[]) => void }) {
  const take = (input: HTMLInputElement): void => {
    choose([...(input.files ?? [])]);
    // So that the same photo can be chosen again after it was left out.
    input.value = '';
  };
  return (
    <div class="fields">
      <label class="take">
        Take a photo{' '}
        <input
          type="file"
          accept="image/*"
          capture="environment"
          disabled={busy}
          onChange={(event) => take(event.currentTarget)}
        />
      </label>
      <label class="take">
        Choose photos or files{' '}
        <input
          type="file"
          multiple
          accept="image/*,application/pdf,text/plain"
          disabled={busy}
          onChange={(event) => take(event.currentTarget)}
        />
      </label>
    </div>
  );
}

function SaidFields({ said, say }: { said: SaidOfAll; say: (said: SaidOfAll) => void }) {
  const { about, text, by } = said;
  return (
    <div class="fields">
      <label class="field">
        What they are{' '}
        <input
          type="text"
          list="kinds-of-papers"
          maxLength={120}
          placeholder="well log, receipt, manual, photo of the tank"
          value={about}
          onInput={(event) => say({ ...said, about: event.currentTarget.value })}
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
          onInput={(event) => say({ ...said, text: event.currentTarget.value })}
        />
      </label>
      <label class="field">
        Your name{' '}
        <input
          type="text"
          autocomplete="name"
          maxLength={80}
          value={by}
          onInput={(event) => say({ ...said, by: event.currentTarget.value })}
        />
      </label>
    </div>
  );
}

const KINDS = ['well log', 'manual', 'receipt', 'laboratory report', 'permit', 'photo'];

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
