/** The pressure switch's label: its two points, what hangs together with them, and which wire goes where. */
import type { LabelLine } from '../../shared/api/labels.ts';
import { sayPressure } from '../../shared/words/format.ts';
import { breakerWords } from './label-electric.ts';
import { givenLine, textLine, wiresLine, type LabelFacts } from './label-lines.ts';
import { switchLine, targetOf } from './label-pressure.ts';

export function switchLines(facts: LabelFacts): LabelLine[] {
  const { card, units } = facts;
  const { lowCutOffKpa } = card.switch;
  const target = targetOf(facts);
  const wires = card.described?.electrical.wires.switch;
  return [
    switchLine(facts),
    textLine(
      'low-pressure cut-off',
      lowCutOffKpa === undefined ? undefined : sayPressure(lowCutOffKpa, units),
    ),
    ...givenLine('tank precharge', target.is === 'reckoned' ? sayPressure(target.kpa, units) : undefined),
    textLine('relief valve', card.reliefKpa === undefined ? undefined : sayPressure(card.reliefKpa, units)),
    wiresLine('wires by terminal', wires),
    textLine('breaker', breakerWords(card)),
    textLine('set by, on', undefined),
  ];
}
