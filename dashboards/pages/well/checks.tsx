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
import { texts } from './texts.ts';

const ORDER = { differs: 0, 'not-yet': 1, agrees: 2 } as const;

export function Checks({ checks }: { checks: readonly CheckAnswer[] }) {
  const several = new Set(checks.map(({ pump }) => pump)).size > 2;
  const sorted = checks.toSorted((a, b) => ORDER[a.state] - ORDER[b.state]);
  return (
    <ul class="checks">
      {sorted.map((check) => (
        <li key={`${check.what} ${check.pump ?? ''}`} class={`is-${check.state}`}>
          <p>
            <strong>
              {several && check.pump !== undefined && `${texts().pumpNumber(check.pump.slice(1))}: `}
              {check.question}
            </strong>{' '}
            {texts().agreement[check.state]}
          </p>
          <Figures check={check} />
          {check.action !== undefined && (
            <>
              <p>{check.action}</p>
              <Cautions cautions={CHECK_WORDS[check.what].cautions ?? []} />
            </>
          )}
          {check.waitingFor !== undefined && <p class="secondary">{texts().waitingFor(check.waitingFor)}</p>}
        </li>
      ))}
    </ul>
  );
}

function Figures({ check: { card, measured } }: { check: CheckAnswer }) {
  const { units } = useAppContext();
  if (!card && !measured) return null;
  const format = (figures: NonNullable<CheckAnswer['card']>): string =>
    figures
      .map(({ value, dimension }) =>
        dimension === 'duration' ? formatDuration(value) : formatQuantity(value, dimension, units),
      )
      .join(texts().to);
  const parts = [
    ...(card ? [texts().onTheCard(format(card))] : []),
    ...(measured ? [texts().measured(format(measured))] : []),
  ];
  return <p class="secondary">{parts.join(' ')}</p>;
}
