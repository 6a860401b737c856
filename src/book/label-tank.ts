/**
 * The tank's label. Its first figure is the air charge to set, from the measured cut-in where there is one; the water between cut-out and
 * cut-in follows by Boyle's law (src/hydraulics/tank.ts) as the tank will give it once it is set so.
 */
import type { LabelLine } from '../../shared/api/labels.ts';
import { sayPressure, sayShare, sayVolume } from '../../shared/words/format.ts';
import { EMPTY_AND_OFF } from '../../shared/words/label-words.ts';
import type { TankCard } from '../card/card.ts';
import { acceptanceFactor, tankDrawdownL, tankOf } from '../hydraulics/tank.ts';
import { figureLine, givenLine, joined, textLine, type LabelFacts } from './label-lines.ts';
import { switchLine, targetOf } from './label-pressure.ts';
import type { PrechargeToSet } from './precharge.ts';

export function tankLines(facts: LabelFacts): LabelLine[] {
  const { card, units } = facts;
  const target = targetOf(facts);
  const { maker, model, installed } = card.described?.tank ?? {};
  return [
    prechargeLine(facts, target),
    ...cardLine(facts, target),
    switchLine(facts),
    {
      ...textLine('tank', card.tank?.volumeL === undefined ? undefined : sayVolume(card.tank.volumeL, units)),
      main: true,
    },
    ...drawdownLine(facts, target),
    textLine('relief valve', card.reliefKpa === undefined ? undefined : sayPressure(card.reliefKpa, units)),
    textLine('highest pressure on its plate', undefined),
    textLine('make and model', joined([maker, model], ' ')),
    textLine('installed', installed),
    ...givenLine('house valve', card.described?.where.shutOff),
  ];
}

function prechargeLine(facts: LabelFacts, target: PrechargeToSet): LabelLine {
  const { card, units } = facts;
  const say = (kpa: number): string => sayPressure(kpa, units);
  const line = { name: 'precharge', main: true } as const;
  const written = card.tank?.prechargeKpa;
  switch (target.is) {
    case 'reckoned':
      return {
        ...line,
        value: say(target.kpa),
        beside: `${EMPTY_AND_OFF}: ${units === 'us' ? '2 psi' : '14 kPa'} under the ${target.from} cut-in of ${say(target.cutInKpa)}`,
      };
    case 'by-manual':
      return {
        ...line,
        ...(written !== undefined && { value: say(written) }),
        beside: `${EMPTY_AND_OFF}, as the ${target.of}’s own manual says`,
      };
    case 'none':
      return { ...line, value: 'none', beside: 'a plain tank, with air over the water' };
    case 'unknown':
      return {
        ...line,
        ...(written !== undefined && { value: say(written) }),
        beside: `${EMPTY_AND_OFF}: ${units === 'us' ? '2 psi' : '14 kPa'} under cut-in`,
      };
    default:
      return target satisfies never;
  }
}

/** What the card says and what a person read, where that is something else than the first line. */
function cardLine(facts: LabelFacts, target: PrechargeToSet): LabelLine[] {
  const measured = facts.measured.precharge;
  const written = target.is === 'reckoned' ? facts.card.tank?.prechargeKpa : undefined;
  const say = (kpa: number): string => sayPressure(kpa, facts.units);
  const same = target.is === 'reckoned' && written !== undefined && say(written) === say(target.kpa);
  if (target.is === 'none' || (!measured && (written === undefined || same))) return [];
  const name = written === undefined ? 'precharge as it was' : 'precharge on the card';
  return [figureLine(name, facts, { written, measured, say })];
}

function drawdownLine(facts: LabelFacts, target: PrechargeToSet): LabelLine[] {
  const { card, measured, units } = facts;
  const cutInKpa = measured['cut-in']?.si ?? card.switch.cutInKpa;
  const cutOutKpa = measured['cut-out']?.si ?? card.switch.cutOutKpa;
  const tank = tankOf(card.tank && setTo(card.tank, target), card.altitudeM);
  if (!tank || cutInKpa === undefined || cutOutKpa === undefined || cutOutKpa <= cutInKpa) return [];
  const points = { cutInKpa, cutOutKpa };
  const most = card.tank?.kind === 'plain' ? 'at most ' : '';
  const level = card.altitudeGiven ? '' : ', for sea level';
  return [
    {
      name: 'tank drawdown, cut-out to cut-in',
      value: `${most}${sayVolume(tankDrawdownL(tank, points), units)}`,
      beside: `${sayShare(acceptanceFactor(tank, points))} of the tank, reckoned${level}`,
    },
  ];
}

function setTo(tank: TankCard, target: PrechargeToSet): TankCard {
  return target.is === 'reckoned' ? { ...tank, prechargeKpa: target.kpa } : tank;
}
