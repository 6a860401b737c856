/**
 * A set-up is one well told twice: as it is (the plan) and as its owner knows it (the card). Both
 * must agree.
 */
import { describe, expect, it } from 'vitest';
import { kpaFromPsi } from '../../../../shared/units/pressure.ts';
import { readCard } from '../../../../src/core/domain/read-card.ts';
import type { Card } from '../../../../src/core/domain/card.ts';
import { cardQuestions } from '../../../../src/core/domain/questions.ts';
import { PUMPS, type PumpSize } from '../../../../src/lab/score/corpus/pumps.ts';
import { setup, type CardKnowledge } from '../../../../src/lab/score/corpus/setup.ts';
import { floatStore, timerStore, variableSpeed } from '../../../../src/lab/score/corpus/stores.ts';

const sizes = Object.keys(PUMPS) as PumpSize[];

function cardOf(card: Record<string, unknown>): Card {
  const read = readCard(card);
  if ('problem' in read) throw new Error(read.problem);
  return read.card;
}

describe('setup', () => {
  it.each(sizes)('with a pump of %s has a card that agrees with its plan and leaves no question', (size) => {
    const { plan, card } = setup({ name: 'one', seed: 1, size });
    const read = cardOf(card);
    expect(cardQuestions(read)).toEqual([]);
    expect(read.switch.cutInKpa).toBeCloseTo(kpaFromPsi(40), 3);
    expect(plan.control).toMatchObject({ cutInKpa: kpaFromPsi(40), cutOutKpa: kpaFromPsi(60) });
    expect(read.tank?.volumeL).toBeCloseTo(plan.tank!.volumeL, 3);
    expect(read.tank?.prechargeKpa).toBeCloseTo(plan.tank!.prechargeKpa, 3);
    expect(read.pumps[0]?.phase).toBe(plan.pumps.pumps[0]?.phase);
    expect(read.pumps[0]?.maxAmps).toBeGreaterThan(plan.pumps.pumps[0]!.fullFlowAmps);
  });

  it.each([
    { knows: 'all', has: ['switch', 'tank', 'relief', 'pump'] },
    { knows: 'no-tank', has: ['switch', 'pump'] },
    { knows: 'no-switch', has: ['tank', 'pump'] },
    { knows: 'name', has: [] },
  ] satisfies { knows: CardKnowledge; has: string[] }[])(
    'whose owner knows $knows says as much',
    ({ knows, has }) => {
      const { card } = setup({ name: 'one', seed: 1, cardKnowledge: knows });
      expect(['switch', 'tank', 'relief', 'pump'].filter((key) => key in card).sort()).toEqual(
        [...has].sort(),
      );
    },
  );

  it.each([
    { control: 'float', made: floatStore({ name: 'one', seed: 1 }) },
    { control: 'timer', made: timerStore({ name: 'one', seed: 1 }, [5], 40) },
    { control: 'variable-speed', made: variableSpeed({ name: 'one', seed: 1 }) },
  ])('under a $control says so on its card', ({ control, made }) => {
    expect(cardOf(made.card).pumps[0]?.control).toBe(control);
    expect(made.plan.control.is).toBe(control);
    expect(made.plan.tank !== undefined).toBe(control === 'variable-speed');
  });
});
