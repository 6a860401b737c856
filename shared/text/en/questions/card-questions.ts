/**
 * What is odd on a card, asked of whoever wrote it. Figures come as text with their unit, in the
 * units of who reads them.
 */
export const cardQuestionTexts = {
  threeWires: 'A three-phase motor has three wires, and the card says 2. Is it single-phase?',
  twoWires: (lead: string) =>
    `A two-wire motor has no ${lead} lead of its own. Is the clamp on a line conductor?`,
  needsConverter:
    'A three-phase motor on a single-phase supply needs a drive or a converter. Which one is there?',
  driveFeedsThreePhase:
    'A drive feeds a three-phase motor as a rule, and the card says single-phase. What does the plate say?',
  amps: (figures: { power: string; volts: string; phase: 1 | 3; tableAmps: string; cardAmps: string }) => {
    const { power, volts, phase, tableAmps, cardAmps } = figures;
    const motor = `${power}, ${volts} V, ${phase === 1 ? 'single' : 'three'}-phase`;
    return `A motor of ${motor} draws about ${tableAmps} A at full load, and the card says ${cardAmps} A. What does the motor's plate say for service-factor amps?`;
  },
  narrowDifferential: ({ differential, usual }: { differential: string; usual: string }) =>
    `Cut-out is only ${differential} above cut-in; ${usual} is usual. So the pump starts often. Are both right?`,
  wideDifferential: ({ differential, usual }: { differential: string; usual: string }) =>
    `Cut-out is ${differential} above cut-in; ${usual} is usual. Are both right?`,
  plainTank: 'A plain tank has no precharge: its air lies on the water. Is it a captive-air tank?',
  prechargeOverCutIn: ({ precharge, cutIn }: { precharge: string; cutIn: string }) =>
    `The precharge, ${precharge}, is over the cut-in, ${cutIn}: the tank is empty before the pump starts. 2 psi (14 kPa) under cut-in is usual. Was it read with the water drained?`,
  prechargeFarBelow: ({ precharge, under }: { precharge: string; under: string }) =>
    `The precharge, ${precharge}, is ${under} under the cut-in; 2 psi (14 kPa) under is usual. Is it right?`,
  reliefUnderCutOut: (figures: Relief) => reliefText('under', figures),
  reliefNearCutOut: (figures: Relief) => reliefText('close to', figures),
  floatAndSwitch:
    'The card says that a float runs the pump, and gives a pressure switch too. Which of them starts the pump?',
  timerAndSwitch:
    'The card says that a timer runs the pump, and gives a pressure switch too. Which of them starts the pump?',
  pumpUnderHole: ({ set, hole }: { set: string; hole: string }) =>
    `The pump is set at ${set}, and the hole is ${hole} deep. Which of them is right?`,
  pumpOverWater: ({ water, set }: { water: string; set: string }) =>
    `Water stands at ${water}, under the pump at ${set}: it would hang dry. Which of them is right?`,
  valveUnderPump: ({ valve, set }: { valve: string; set: string }) =>
    `A check valve at ${valve} is under the pump at ${set}. Which of them is right?`,
  pumpOverYield: ({ rated, wellYield }: { rated: string; wellYield: string }) =>
    `The pump is rated ${rated}, and the well yields ${wellYield}: drawn on for long it can run dry. Are both right, and what stops the pump then?`,
  voltDrop: (figures: { amps: string; lost: string; percent: string; volts: string }) => {
    const { amps, lost, percent, volts } = figures;
    return `At ${amps} A this wire loses ${lost} V, ${percent} % of ${volts} V; the motor makers’ tables allow 5 %. Are sizes and lengths right? Whether the wire fits is for an electrician to say.`;
  },
  waterUnderHole: ({ depth, hole }: { depth: string; hole: string }) =>
    `Water stands at ${depth}, and the hole is ${hole} deep. Which of them is right?`,
  casingUnderHole: ({ depth, hole }: { depth: string; hole: string }) =>
    `The casing goes to ${depth}, and the hole is ${hole} deep. Which of them is right?`,
  smallBreaker: (figures: Breaker) =>
    `${breakerText(figures)}: a quarter more than the motor draws is usual (common practice), and a smaller breaker trips. Are both right?`,
  /** `isTable`: 2.5 times the amps of the motor tables, which are not those of the card. */
  largeBreaker: (figures: Breaker & { tableAmps: string; isTable: boolean; maxAmps: string }) => {
    const { tableAmps, isTable, maxAmps } = figures;
    const source = isTable ? 'of the motor tables' : 'that it draws';
    return `${breakerText(figures)}: 2.5 times the ${tableAmps} A ${source}, or the next size made (${maxAmps} A), is the usual maximum (NEC 430.52). Is it right? Whether breaker and cable fit is for an electrician to say.`;
  },
  dateAhead: ({ what, date }: { what: Dated; date: string }) =>
    `${DATED[what]} in ${date}, which is still to come. Is the date right?`,
  dateBeforeWell: ({ what, date, drilled }: { what: Dated; date: string; drilled: string }) =>
    `${DATED[what]} in ${date}, before the well was drilled in ${drilled}. Is it so?`,
};

interface Relief {
  relief: string;
  cutOut: string;
}

function reliefText(position: string, { relief, cutOut }: Relief): string {
  return `The relief valve, ${relief}, is ${position} the cut-out, ${cutOut}: it would open before the pump stops, or weep. Are both right?`;
}

interface Breaker {
  breaker: string;
  amps: string;
  /** The card gives no amps: they are those of the motor tables. */
  byTables: boolean;
}

function breakerText({ breaker, amps, byTables }: Breaker): string {
  return `The breaker is ${breaker} A and the motor draws ${byTables ? 'by the tables about' : 'up to'} ${amps} A`;
}

/** What has a date. */
export type Dated = keyof typeof DATED;
const DATED = {
  well: 'The well was drilled',
  pump: 'The pump was installed',
  tank: 'The tank was installed',
} as const;
