/**
 * The tank's label. Its first figure is the air charge to set, from the measured cut-in where there
 * is one; the water between cut-out and cut-in follows by Boyle's law (src/core/hydraulics/tank.ts)
 * as the tank will give it once it is set so.
 */
import type { LabelLine } from '../../../shared/api/labels.ts';
import { formatPressure, formatPercent, formatVolume } from '../../../shared/text/en/format.ts';
import { PRECHARGE_CONDITIONS } from '../../../shared/text/en/label-words.ts';
import type { TankCard } from '../../core/domain/card.ts';
import { acceptanceFactor, tankDrawdownL, tankOf } from '../../core/hydraulics/tank.ts';
import { figureLine, optionalLine, joinKnown, textLine, type LabelFacts } from './label-lines.ts';
import { switchLine, prechargeFor } from './label-pressure.ts';
import type { PrechargeResult } from '../readings/precharge.ts';
import { texts } from './texts.ts';

export function tankLines(facts: LabelFacts): LabelLine[] {
  const { card, units } = facts;
  const target = prechargeFor(facts);
  const { maker, model, installed } = card.description?.tank ?? {};
  return [
    prechargeLine(facts, target),
    ...cardPrechargeLine(facts, target),
    switchLine(facts),
    {
      ...textLine(
        texts().tank,
        card.tank?.volumeL === undefined ? undefined : formatVolume(card.tank.volumeL, units),
      ),
      prominent: true,
    },
    ...drawdownLine(facts, target),
    textLine(
      texts().reliefValve,
      card.reliefKpa === undefined ? undefined : formatPressure(card.reliefKpa, units),
    ),
    textLine(texts().maxPressure, undefined),
    textLine(texts().makeAndModel, joinKnown([maker, model], ' ')),
    textLine(texts().installed, installed),
    ...optionalLine(texts().houseValve, card.description?.where.shutOff),
  ];
}

/** 2 psi: how far the precharge is to lie under cut-in. */
const UNDER_CUT_IN_KPA = 13.8;

function prechargeLine(facts: LabelFacts, target: PrechargeResult): LabelLine {
  const { card, units } = facts;
  const format = (kpa: number): string => formatPressure(kpa, units);
  const line = { name: texts().precharge, prominent: true as const };
  const written = card.tank?.prechargeKpa;
  switch (target.is) {
    case 'calculated':
      return {
        ...line,
        value: format(target.kpa),
        detail: texts().belowCutIn({
          conditions: PRECHARGE_CONDITIONS,
          under: format(UNDER_CUT_IN_KPA),
          cutIn: format(target.cutInKpa),
          isMeasured: target.from !== 'card',
        }),
      };
    case 'by-manual':
      return {
        ...line,
        ...(written !== undefined && { value: format(written) }),
        detail: texts().byManual(PRECHARGE_CONDITIONS, target.equipment),
      };
    case 'none':
      return { ...line, value: texts().noPrecharge, detail: texts().plainTank };
    case 'unknown':
      return {
        ...line,
        ...(written !== undefined && { value: format(written) }),
        detail: texts().belowUnknownCutIn(PRECHARGE_CONDITIONS, format(UNDER_CUT_IN_KPA)),
      };
    default:
      return target satisfies never;
  }
}

/** What the card says and what a person read, where that is something else than the first line. */
function cardPrechargeLine(facts: LabelFacts, target: PrechargeResult): LabelLine[] {
  const measured = facts.measured.precharge;
  const written = target.is === 'calculated' ? facts.card.tank?.prechargeKpa : undefined;
  const format = (kpa: number): string => formatPressure(kpa, facts.units);
  const same = target.is === 'calculated' && written !== undefined && format(written) === format(target.kpa);
  if (target.is === 'none' || (!measured && (written === undefined || same))) return [];
  const name = written === undefined ? texts().prechargeFound : texts().prechargeOnCard;
  return [figureLine(name, facts, { written, measured, format })];
}

function drawdownLine(facts: LabelFacts, target: PrechargeResult): LabelLine[] {
  const { card, measured, units } = facts;
  const cutInKpa = measured['cut-in']?.si ?? card.switch.cutInKpa;
  const cutOutKpa = measured['cut-out']?.si ?? card.switch.cutOutKpa;
  const tank = tankOf(card.tank && withPrecharge(card.tank, target), card.altitudeM);
  if (!tank || cutInKpa === undefined || cutOutKpa === undefined || cutOutKpa <= cutInKpa) return [];
  const points = { cutInKpa, cutOutKpa };
  const atMost = card.tank?.kind === 'plain' ? texts().atMost : '';
  const level = card.altitudeKnown ? '' : texts().forSeaLevel;
  return [
    {
      name: texts().tankDrawdown,
      value: `${atMost}${formatVolume(tankDrawdownL(tank, points), units)}`,
      detail: texts().ofTheTank(formatPercent(acceptanceFactor(tank, points)), level),
    },
  ];
}

function withPrecharge(tank: TankCard, target: PrechargeResult): TankCard {
  return target.is === 'calculated' ? { ...tank, prechargeKpa: target.kpa } : tank;
}
