/**
 * The pressure switch's label: its two points, what hangs together with them, and which wire goes
 * where.
 */
import type { LabelLine } from '../../../shared/api/labels.ts';
import { formatPressure } from '../../../shared/text/en/format.ts';
import { breakerWords } from './label-electric.ts';
import { optionalLine, textLine, wiresLine, type LabelFacts } from './label-lines.ts';
import { switchLine, prechargeFor } from './label-pressure.ts';

export function switchLines(facts: LabelFacts): LabelLine[] {
  const { card, units } = facts;
  const { lowCutOffKpa } = card.switch;
  const target = prechargeFor(facts);
  const wires = card.description?.electrical.wires.switch;
  return [
    switchLine(facts),
    textLine(
      'low-pressure cut-off',
      lowCutOffKpa === undefined ? undefined : formatPressure(lowCutOffKpa, units),
    ),
    ...optionalLine(
      'tank precharge',
      target.is === 'calculated' ? formatPressure(target.kpa, units) : undefined,
    ),
    textLine(
      'relief valve',
      card.reliefKpa === undefined ? undefined : formatPressure(card.reliefKpa, units),
    ),
    wiresLine('wires by terminal', wires),
    textLine('breaker', breakerWords(card)),
    textLine('set by, on', undefined),
  ];
}
