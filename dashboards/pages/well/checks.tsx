/**
 * Do clamp, transducer, switch, tank and card agree? What differs comes first, with what to do;
 * what agrees is one line each.
 */
import type { CheckAnswer } from '../../../shared/api/checks.ts';
import { formatQuantity } from '../../../shared/quantity/format-quantity.ts';
import { CHECK_WORDS } from '../../../shared/text/en/checks/checks.ts';
import { formatDuration } from '../../../shared/text/en/format.ts';
import { useAppContext } from '../../data/settings.ts';
import { Cautions } from '../../ui/alarm-card.tsx';

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
              {check.question}
            </strong>{' '}
            {sentence(check.state)}
          </p>
          <Figures check={check} />
          {check.action !== undefined && (
            <>
              <p>{check.action}</p>
              <Cautions cautions={CHECK_WORDS[check.what].cautions ?? []} />
            </>
          )}
          {check.waitingFor !== undefined && <p class="secondary">It waits for {check.waitingFor}.</p>}
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
  const { units } = useAppContext();
  if (!card && !measured) return null;
  const format = (figures: NonNullable<CheckAnswer['card']>): string =>
    figures
      .map(({ value, dimension }) =>
        dimension === 'duration' ? formatDuration(value) : formatQuantity(value, dimension, units),
      )
      .join(' to ');
  const parts = [
    ...(card ? [`On the card: ${format(card)}.`] : []),
    ...(measured ? [`Measured: ${format(measured)}.`] : []),
  ];
  return <p class="secondary">{parts.join(' ')}</p>;
}
