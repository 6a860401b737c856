/**
 * The pressure switch's label: its two points, what hangs together with them, and which wire goes
 * where.
 */
import type { LabelLine } from '../../../shared/api/labels.ts';
import { formatPressure } from '../../../shared/text/en/format.ts';
import { breakerWords } from './label-electric.ts';
import { optionalLine, textLine, wiresLine, type LabelFacts } from './label-lines.ts';
import { switchLine, prechargeFor } from './label-pressure.ts';
import { texts } from './texts.ts';

export function switchLines(facts: LabelFacts): LabelLine[] {
  const { card, units } = facts;
  const { lowCutOffKpa } = card.switch;
  const target = prechargeFor(facts);
  const wires = card.description?.electrical.wires.switch;
  return [
    switchLine(facts),
    textLine(
      texts().lowPressureCutOff,
      lowCutOffKpa === undefined ? undefined : formatPressure(lowCutOffKpa, units),
    ),
    ...optionalLine(
      texts().tankPrecharge,
      target.is === 'calculated' ? formatPressure(target.kpa, units) : undefined,
    ),
    textLine(
      texts().reliefValve,
      card.reliefKpa === undefined ? undefined : formatPressure(card.reliefKpa, units),
    ),
    wiresLine(texts().wiresByTerminal, wires),
    textLine(texts().breaker, breakerWords(card)),
    textLine(texts().setBy, undefined),
  ];
}
