/**
 * What is odd on a card and yet possible: asked of the person who wrote it, never refused and never put right in silence. Each
 * question names its key, what stands there, and what is usual.
 */
import { printNumber, printQuantity } from '../../shared/quantity/print-quantity.ts';
import type { UnitSystem } from '../../shared/quantity/print-quantity.ts';
import { kpaFromPsi } from '../../shared/units/pressure.ts';
import type { Card, PumpCard, SwitchCard } from './card.ts';
import { tableAmps } from './motor-tables.ts';
import { questionsOfDescription } from './questions-hole.ts';

export interface CardQuestion {
  key: string;
  question: string;
}

/** Precharge is set 2 psi under cut-in (Water Systems Council, "Pressure Tanks"); more than 10 psi under wastes the tank. */
const PRECHARGE_FAR_BELOW_KPA = kpaFromPsi(10);
/** A relief valve within 5 psi of cut-out weeps at each run (common practice). */
const RELIEF_NEAR_KPA = kpaFromPsi(5);
/** Switches are made for 20 psi between the points (Water Well Journal; The Driller); 10 to 30 is still met. */
const DIFFERENTIAL_KPA = { least: kpaFromPsi(10), most: kpaFromPsi(30) };
/**
 * Service-factor amps over the table's full-load amps: 1.14 to 1.23 on common submersible plates, more on small ones. Half of the
 * amps (a 230 V motor noted at 115 V, or a wrong size) gives about 0.6, twice gives 2.4 (common practice).
 */
const AMPS_OVER_TABLE = { least: 0.7, most: 1.6 };

/** Questions in the order of the card's keys. `units`: in whose units they are asked; `today`: the local date, without which no date is asked about. */
export function questionsOfCard(card: Card, units: UnitSystem = 'us', today?: string): CardQuestion[] {
  const say = (kpa: number): string => printQuantity(kpa, 'pressure', units);
  const pathOf = (pump: PumpCard): string => (card.pumps.length > 1 ? `pumps.${pump.id}.pump` : 'pump');
  return [
    ...card.pumps.flatMap((pump) => questionsOfPump(pump, pathOf(pump))),
    ...questionsOfSwitch(card.switch, say),
    ...questionsOfTank(card, say),
    ...questionsOfRelief(card, say),
    ...questionsOfControl(card),
    ...questionsOfDescription(card, { units, ...(today !== undefined && { today }) }, pathOf),
  ];
}

function questionsOfPump(pump: PumpCard, path: string): CardQuestion[] {
  const questions: CardQuestion[] = [];
  const ask = (key: string, question: string): void =>
    void questions.push({ key: `${path}.${key}`, question });
  const amps = ampsQuestion(pump);
  if (amps !== undefined) ask('maxAmps', amps);
  if (pump.wires === 2 && pump.phase === 3) {
    ask('wires', 'A three-phase motor has three wires, and the card says 2. Is it single-phase?');
  }
  if (pump.wires === 2 && pump.clamp !== undefined && pump.clamp !== 'line') {
    ask('clamp', `A two-wire motor has no ${pump.clamp} lead of its own. Is the clamp on a line conductor?`);
  }
  if (pump.phase === 3 && pump.supplyPhase === 1 && pump.control !== 'variable-speed') {
    ask(
      'supplyPhase',
      'A three-phase motor on a single-phase supply needs a drive or a converter. Which one is there?',
    );
  }
  if (pump.phase === 1 && pump.supplyPhase === 3 && pump.control === 'variable-speed') {
    ask(
      'phase',
      'A drive feeds a three-phase motor as a rule, and the card says single-phase. What does the plate say?',
    );
  }
  return questions;
}

/** The motor's maximum amps against the published table of its size, where size, volts and phase are all on the card. */
function ampsQuestion({ motorW, volts, phase, maxAmps }: PumpCard): string | undefined {
  if (motorW === undefined || volts === undefined || phase === undefined || maxAmps === undefined)
    return undefined;
  const usual = tableAmps({ motorW, volts, phase });
  if (usual === undefined) return undefined;
  const share = maxAmps / usual;
  if (share >= AMPS_OVER_TABLE.least && share <= AMPS_OVER_TABLE.most) return undefined;
  const size = `${printQuantity(motorW, 'power', 'us')}, ${printNumber(volts, 0)} V, ${phase === 1 ? 'single' : 'three'}-phase`;
  return `A motor of ${size} draws about ${printNumber(usual, 1)} A at full load, and the card says ${printNumber(maxAmps, 1)} A. What does the motor's plate say for service-factor amps?`;
}

function questionsOfSwitch(
  { cutInKpa, cutOutKpa }: SwitchCard,
  say: (kpa: number) => string,
): CardQuestion[] {
  if (cutInKpa === undefined || cutOutKpa === undefined) return [];
  const differential = cutOutKpa - cutInKpa;
  if (differential < DIFFERENTIAL_KPA.least * 0.999) {
    return [
      {
        key: 'switch.cutOut',
        question: `Cut-out is only ${say(differential)} above cut-in; ${say(kpaFromPsi(20))} is usual. So the pump starts often. Are both right?`,
      },
    ];
  }
  if (differential > DIFFERENTIAL_KPA.most * 1.001) {
    return [
      {
        key: 'switch.cutOut',
        question: `Cut-out is ${say(differential)} above cut-in; ${say(kpaFromPsi(20))} is usual. Are both right?`,
      },
    ];
  }
  return [];
}

function questionsOfTank({ tank, switch: points }: Card, say: (kpa: number) => string): CardQuestion[] {
  const key = 'tank.precharge';
  if (tank?.prechargeKpa === undefined) return [];
  if (tank.kind === 'plain') {
    return [
      {
        key,
        question: 'A plain tank has no precharge: its air lies on the water. Is it a captive-air tank?',
      },
    ];
  }
  if (points.cutInKpa === undefined) return [];
  const over = tank.prechargeKpa - points.cutInKpa;
  if (over > 0) {
    return [
      {
        key,
        question: `The precharge, ${say(tank.prechargeKpa)}, is over the cut-in, ${say(points.cutInKpa)}: the tank is empty before the pump starts. 2 psi (14 kPa) under cut-in is usual. Was it read with the water drained?`,
      },
    ];
  }
  if (-over > PRECHARGE_FAR_BELOW_KPA * 1.001) {
    return [
      {
        key,
        question: `The precharge, ${say(tank.prechargeKpa)}, is ${say(-over)} under the cut-in; 2 psi (14 kPa) under is usual. Is it right?`,
      },
    ];
  }
  return [];
}

function questionsOfRelief(
  { reliefKpa, switch: points }: Card,
  say: (kpa: number) => string,
): CardQuestion[] {
  if (reliefKpa === undefined || points.cutOutKpa === undefined) return [];
  if (reliefKpa - points.cutOutKpa >= RELIEF_NEAR_KPA) return [];
  const where = reliefKpa < points.cutOutKpa ? 'under' : 'close to';
  return [
    {
      key: 'relief',
      question: `The relief valve, ${say(reliefKpa)}, is ${where} the cut-out, ${say(points.cutOutKpa)}: it would open before the pump stops, or weep. Are both right?`,
    },
  ];
}

/** A store filled by a float or a timer makes no pressure cycle, so a pressure switch on the card contradicts it. */
function questionsOfControl({ pumps, switch: points }: Card): CardQuestion[] {
  const filling = pumps.find(({ control }) => control === 'float' || control === 'timer');
  if (!filling || pumps.length > 1 || points.cutInKpa === undefined) return [];
  return [
    {
      key: 'control',
      question: `The card says that a ${filling.control} runs the pump, and gives a pressure switch too. Which of them starts the pump?`,
    },
  ];
}
