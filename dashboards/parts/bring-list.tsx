/** What to bring: each part with what is known of it, and what nobody wrote down, to be asked for before the drive. */
import type { BringItemAnswer } from '../../shared/api/visits.ts';
import { unbroken } from '../words/names.ts';

const NAMES: Record<string, string> = {
  pump: 'Pump and motor',
  'drop-pipe': 'Drop pipe, cable, check valve',
  'control-box': 'Control box and capacitor',
  switch: 'Pressure switch',
  tank: 'Pressure tank',
  fittings: 'Fittings',
  electrical: 'Breaker and supply (for the electrician)',
  sensors: 'Node, clamp, transducer',
  level: 'Level tape',
};

/** Common practice, no source. */
const ALWAYS =
  'A pressure gauge that was checked, a tyre gauge, lock and tag for the breaker, and whatever meters the person who may use them brings. Where the well or its pipes are opened: plain bleach, and a bottle of the laboratory for the test after.';

export function BringList({ items }: { items: readonly BringItemAnswer[] }) {
  const asked = items.some(({ because }) => because.length > 0);
  return (
    <>
      <p class="doing">
        {asked
          ? 'For what stands against the well, likeliest causes first.'
          : 'Nothing that stands asks for a part. This is what is known, for whatever turns up.'}
      </p>
      <ul class="bring">
        {items.map((item) => (
          <li key={`${item.part} ${item.pump ?? ''}`}>
            <h3>
              {NAMES[item.part] ?? item.part}
              {item.pump !== undefined && `, pump ${item.pump.slice(1)}`}
            </h3>
            {item.because.length > 0 && <p class="doing">For: {item.because.join('; ')}</p>}
            {item.known.length > 0 && <p>{unbroken(item.known.join(', '))}.</p>}
            {item.unknown.length > 0 && (
              <p class="unknown">Not known: {unbroken(item.unknown.join('; '))}.</p>
            )}
          </li>
        ))}
      </ul>
      <p>Always: {ALWAYS}</p>
    </>
  );
}
