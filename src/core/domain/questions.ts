/**
 * What is odd on a card and yet possible: asked of the person who wrote it, never refused and never
 * put right in silence. Each question names its key, what stands there, and what is usual.
 */
import { formatNumber, formatQuantity } from '../../../shared/quantity/format-quantity.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { kpaFromPsi } from '../../../shared/units/pressure.ts';
import type { Card, PumpCard, SwitchCard } from './card.ts';
import { fullLoadAmps } from './motor-tables.ts';
import { texts } from './question-texts.ts';
import { descriptionQuestions } from './questions-description.ts';

export interface CardQuestion {
  key: string;
  question: string;
}

/**
 * Precharge is set 2 psi under cut-in (Water Systems Council, "Pressure Tanks"); more than 10 psi
 * under wastes the tank.
 */
const PRECHARGE_FAR_BELOW_KPA = kpaFromPsi(10);
/** A relief valve within 5 psi of cut-out weeps at each run (common practice). */
const RELIEF_NEAR_KPA = kpaFromPsi(5);
/**
 * Switches are made for 20 psi between the points (Water Well Journal; The Driller); 10 to 30 is
 * still met.
 */
const DIFFERENTIAL_KPA = { min: kpaFromPsi(10), max: kpaFromPsi(30) };
/**
 * Service-factor amps over the table's full-load amps: 1.14 to 1.23 on common submersible plates,
 * more on small ones. Half of the amps (a 230 V motor noted at 115 V, or a wrong size) gives about
 * 0.6, twice gives 2.4 (common practice).
 */
const AMPS_TO_TABLE_RATIO = { min: 0.7, max: 1.6 };

/**
 * Questions in the order of the card's keys. `units`: in whose units they are asked; `today`: the
 * local date, without which no date is asked about.
 */
export function cardQuestions(card: Card, units: UnitSystem = 'us', today?: string): CardQuestion[] {
  const format = (kpa: number): string => formatQuantity(kpa, 'pressure', units);
  const pathOf = (pump: PumpCard): string => (card.pumps.length > 1 ? `pumps.${pump.id}.pump` : 'pump');
  return [
    ...card.pumps.flatMap((pump) => pumpQuestions(pump, pathOf(pump))),
    ...switchQuestions(card.switch, format),
    ...tankQuestions(card, format),
    ...reliefQuestions(card, format),
    ...controlQuestions(card),
    ...descriptionQuestions(card, { units, ...(today !== undefined && { today }) }, pathOf),
  ];
}

function pumpQuestions(pump: PumpCard, path: string): CardQuestion[] {
  const questions: CardQuestion[] = [];
  const add = (key: string, question: string): void =>
    void questions.push({ key: `${path}.${key}`, question });
  const amps = ampsQuestion(pump);
  if (amps !== undefined) add('maxAmps', amps);
  if (pump.wires === 2 && pump.phase === 3) {
    add('wires', texts().threeWires);
  }
  if (pump.wires === 2 && pump.clamp !== undefined && pump.clamp !== 'line') {
    add('clamp', texts().twoWires(pump.clamp));
  }
  if (pump.phase === 3 && pump.supplyPhase === 1 && pump.control !== 'variable-speed') {
    add('supplyPhase', texts().needsConverter);
  }
  if (pump.phase === 1 && pump.supplyPhase === 3 && pump.control === 'variable-speed') {
    add('phase', texts().driveFeedsThreePhase);
  }
  return questions;
}

/**
 * The motor's maximum amps against the published table of its size, where size, volts and phase are
 * all on the card.
 */
function ampsQuestion({ motorW, volts, phase, maxAmps }: PumpCard): string | undefined {
  if (motorW === undefined || volts === undefined || phase === undefined || maxAmps === undefined)
    return undefined;
  const tableAmps = fullLoadAmps({ motorW, volts, phase });
  if (tableAmps === undefined) return undefined;
  const ratio = maxAmps / tableAmps;
  if (ratio >= AMPS_TO_TABLE_RATIO.min && ratio <= AMPS_TO_TABLE_RATIO.max) return undefined;
  return texts().amps({
    power: formatQuantity(motorW, 'power', 'us'),
    volts: formatNumber(volts, 0),
    phase,
    tableAmps: formatNumber(tableAmps, 1),
    cardAmps: formatNumber(maxAmps, 1),
  });
}

function switchQuestions(
  { cutInKpa, cutOutKpa }: SwitchCard,
  format: (kpa: number) => string,
): CardQuestion[] {
  if (cutInKpa === undefined || cutOutKpa === undefined) return [];
  const differential = cutOutKpa - cutInKpa;
  const figures = { differential: format(differential), usual: format(kpaFromPsi(20)) };
  if (differential < DIFFERENTIAL_KPA.min * 0.999) {
    return [
      {
        key: 'switch.cutOut',
        question: texts().narrowDifferential(figures),
      },
    ];
  }
  if (differential > DIFFERENTIAL_KPA.max * 1.001) {
    return [
      {
        key: 'switch.cutOut',
        question: texts().wideDifferential(figures),
      },
    ];
  }
  return [];
}

function tankQuestions({ tank, switch: points }: Card, format: (kpa: number) => string): CardQuestion[] {
  const key = 'tank.precharge';
  if (tank?.prechargeKpa === undefined) return [];
  if (tank.kind === 'plain') {
    return [
      {
        key,
        question: texts().plainTank,
      },
    ];
  }
  if (points.cutInKpa === undefined) return [];
  const over = tank.prechargeKpa - points.cutInKpa;
  const precharge = format(tank.prechargeKpa);
  if (over > 0) {
    return [
      {
        key,
        question: texts().prechargeOverCutIn({ precharge, cutIn: format(points.cutInKpa) }),
      },
    ];
  }
  if (-over > PRECHARGE_FAR_BELOW_KPA * 1.001) {
    return [
      {
        key,
        question: texts().prechargeFarBelow({ precharge, under: format(-over) }),
      },
    ];
  }
  return [];
}

function reliefQuestions(
  { reliefKpa, switch: points }: Card,
  format: (kpa: number) => string,
): CardQuestion[] {
  if (reliefKpa === undefined || points.cutOutKpa === undefined) return [];
  if (reliefKpa - points.cutOutKpa >= RELIEF_NEAR_KPA) return [];
  const figures = { relief: format(reliefKpa), cutOut: format(points.cutOutKpa) };
  const isUnder = reliefKpa < points.cutOutKpa;
  const question = isUnder ? texts().reliefUnderCutOut(figures) : texts().reliefNearCutOut(figures);
  return [{ key: 'relief', question }];
}

/**
 * A store filled by a float or a timer makes no pressure cycle, so a pressure switch on the card
 * contradicts it.
 */
function controlQuestions({ pumps, switch: points }: Card): CardQuestion[] {
  const filling = pumps.find(({ control }) => control === 'float' || control === 'timer');
  if (!filling || pumps.length > 1 || points.cutInKpa === undefined) return [];
  const question = filling.control === 'float' ? texts().floatAndSwitch : texts().timerAndSwitch;
  return [{ key: 'control', question }];
}
