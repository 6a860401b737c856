/** A packet from another Stillwell taken in: nothing that is here is changed by it, and what was new is said. */
import { useState } from 'preact/hooks';
import type { Answer } from '../../shared/api/routes.ts';
import { useSurroundings } from '../data/settings.ts';
import { wellAddress } from '../page-of.ts';
import { nameWords } from '../../shared/words/names.ts';
import { TellForm } from './tell-form.tsx';

export function TakePacket() {
  const { source } = useSurroundings();
  const [share, setShare] = useState<number>();
  const [taken, setTaken] = useState<Answer<'takePacket'>>();
  if (!source.live) return null;
  return (
    <section aria-labelledby="take-packet">
      <h2 id="take-packet">A packet from another Stillwell</h2>
      <p>
        The ZIP brings all that is known of the well, papers included; its page alone brings all but the
        papers. Nothing that is here is changed.
      </p>
      <TellForm
        button="Take it in"
        class="tell form"
        tell={async (told, fields, who) => {
          const file = fields.get('packet');
          if (!(file instanceof File) || file.size === 0) return;
          setTaken(undefined);
          setShare(0);
          const same = fields.get('same') === null ? {} : { same: true };
          try {
            setTaken(await told.takePacket({ ...same, ...who }, file, setShare));
          } finally {
            setShare(undefined);
          }
        }}
        done={() => undefined}
      >
        <label class="take">
          The ZIP or the page <input type="file" name="packet" accept=".zip,.html" required />
        </label>
        <label class="tick">
          <input type="checkbox" name="same" />
          <span>A well of this name that is here already is the same well</span>
        </label>
      </TellForm>
      {share !== undefined && (
        <p>
          <progress value={share} max={1} aria-label="The packet on its way" />{' '}
          {share < 1 ? `${Math.round(share * 100)} %` : 'It is being read …'}
        </p>
      )}
      {taken && (
        <div class="sheet" role="status">
          {taken.said.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
          <p>
            <a class="go" href={wellAddress(taken.well)}>
              To {nameWords(taken.well)}
            </a>
          </p>
        </div>
      )}
    </section>
  );
}
