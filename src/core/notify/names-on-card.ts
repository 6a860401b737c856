/** What a well's card says of whom to call and where to switch off: for notices and pages alike. */
import { omitUndefined } from '../../../shared/omit-undefined.ts';
import type { CardNames } from '../../../shared/text/en/card-names.ts';
import type { Card } from '../domain/card.ts';

/** Several pumps hang on breakers of their own, and the card names one. */
export function namesOnCard({ description, pumps }: Card): CardNames {
  const { firm, electrical, where } = description ?? {};
  return omitUndefined({
    firm,
    breaker: pumps.length === 1 ? electrical?.breaker : undefined,
    panel: electrical?.panel ?? where?.panel,
    shutOff: where?.shutOff,
  });
}
