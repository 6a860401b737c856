/** Do clamp, transducer, switch, tank and card agree? What differs comes first, with what to do; what agrees is one line each. */
import type { CheckAnswer } from '../../shared/api/checks.ts';
import { printQuantity } from '../../shared/quantity/print-quantity.ts';
import { CHECK_WORDS } from '../../shared/words/checks.ts';
import { sayDuration } from '../../shared/words/format.ts';
import { useSurroundings } from '../data/settings.ts';
import { Cautions } from './alarm-card.tsx';

const ORDER = { differs: 0, 'not-yet': 1, agrees: 2 } as const;
const STATE_WORDS = { agrees: 'agrees', differs: 'differs', 'not-yet': 'not known yet' } as const;

export function Checks({ checks }: { checks: readonly CheckAnswer[] }) {
  const several = new Set(checks.map(({ pump }) => pump)).size > 2;
  const sorted = checks.toSorted((a, b) => ORDER[a.state] - ORDER[b.state]);
  return (
    <ul class="checks">
      {sorted.map((check) => (
        <li key={`${check.what} ${check.pump ?? ''}`} class={`is-${check.state}`}>
          <p>
            <strong>
              {several && check.pump !== undefined && `Pump ${check.pump.slice(1)}: `}
              {check.asks}
            </strong>{' '}
            {sentence(check.state)}
          </p>
          <Figures check={check} />
          {check.toDo !== undefined && (
            <>
              <p>{check.toDo}</p>
              <Cautions cautions={CHECK_WORDS[check.what].cautions ?? []} />
            </>
          )}
          {check.waitsFor !== undefined && <p class="doing">It waits for {check.waitsFor}.</p>}
        </li>
      ))}
    </ul>
  );
}

function sentence(state: CheckAnswer['state']): string {
  const words = STATE_WORDS[state];
  return `${words[0]?.toUpperCase() ?? ''}${words.slice(1)}.`;
}

function Figures({ check: { card, measured } }: { check: CheckAnswer }) {
  const { units } = useSurroundings();
  if (!card && !measured) return null;
  const print = (figures: NonNullable<CheckAnswer['card']>): string =>
    figures
      .map(({ value, is }) => (is === 'duration' ? sayDuration(value) : printQuantity(value, is, units)))
      .join(' to ');
  const parts = [
    ...(card ? [`On the card: ${print(card)}.`] : []),
    ...(measured ? [`Measured: ${print(measured)}.`] : []),
  ];
  return <p class="doing">{parts.join(' ')}</p>;
}
