/**
 * Card and readings that cannot both be right, in words: part of `sensor-fault`. Several that are
 * found at once share one set of figures, so those of current, of voltage and of pressure have
 * names of their own.
 */
import type { ReasonFormat } from '../../reasons/format.ts';
import type { Figures, ReasonTexts } from '../../reasons/reason-text.ts';

const WRONG_UNITS = {
  'psi-as-pa': 'The node sends psi instead of pascals',
  'psi-as-kpa': 'The node sends psi as kilopascals',
  'kpa-as-pa': 'The node sends kilopascals instead of pascals',
  'bar-as-pa': 'The node sends bar instead of pascals',
  'bar-as-kpa': 'The node sends bar as kilopascals',
  'kpa-as-psi': 'The node sends kilopascals as psi',
  'pa-as-kpa': 'The node sends pascals as kilopascals',
} as const;
export type WrongUnit = keyof typeof WRONG_UNITS;

export type SwitchPointFigures = {
  cutInKpa: number;
  cutOutKpa: number;
  cardCutInKpa: number;
  cardCutOutKpa: number;
};

type FillFigures = { fillS: number; drawdownL: number; expectedS: number };

const contradictionReasons = {
  'current-too-high-for-card': ({ runningA, cardMaxA }: { runningA: number; cardMaxA: number }, { amps }) =>
    `The pump draws ${amps(runningA)}; the card says at most ${amps(cardMaxA)}. No motor can carry that for long. The card or the clamp's scale is wrong, or the clamp measures a second load.`,
  'current-too-low-for-card': (
    {
      runningA,
      cardMaxA,
      raisesPressure,
      mayBeStartLead,
    }: { runningA: number; cardMaxA: number; raisesPressure: boolean; mayBeStartLead: boolean },
    { amps },
  ) =>
    `The pump draws ${amps(runningA)}; the card says at most ${amps(cardMaxA)}. ${raisesPressure ? 'A pump that raises pressure draws more' : 'Even an idling motor draws more'}. The clamp is around two conductors${mayBeStartLead ? ' or the start lead' : ''}, its scale is wrong, or the card is wrong.`,
  'voltage-differs-from-card': ({ runningV, cardV }: { runningV: number; cardV: number }, { volts }) =>
    `The supply is ${volts(runningV)} while the pump runs; the card says ${volts(cardV)}. The card is wrong, or the node measures the wrong pair of conductors.`,
  'pressure-in-wrong-unit': (figures: SwitchPointFigures & { unit: WrongUnit }, format) =>
    `${pointsText(figures, format)} ${WRONG_UNITS[figures.unit]}, or the card is in the wrong unit.`,
  'switch-points-differ-from-card': (figures: SwitchPointFigures & { mayBeAbsolute: boolean }, format) =>
    `${pointsText(figures, format)} The card or the transducer is wrong.${figures.mayBeAbsolute ? ' The transducer may read absolute pressure.' : ''}`,
  'precharge-over-cut-in': (
    { prechargeKpa, cutInKpa }: { prechargeKpa: number; cutInKpa: number },
    { pressure },
  ) =>
    `The card gives a precharge of ${pressure(prechargeKpa)}, above the measured cut-in of ${pressure(cutInKpa)}. The tank would be empty before each start. The card is wrong, or the tank is overcharged.`,
  'fill-too-short-for-card': (figures: FillFigures, format) =>
    `${fillText(figures, format)} The tank is smaller than the card says, or it has lost its air.`,
  'fill-too-long-for-card': (figures: FillFigures, format) =>
    `${fillText(figures, format)} The tank size or rated flow on the card is wrong.`,
} satisfies ReasonTexts;

type ContradictionName = keyof typeof contradictionReasons;
export type CardContradiction = {
  [Name in ContradictionName]: {
    reason: Name;
    figures: Parameters<(typeof contradictionReasons)[Name]>[0];
  };
}[ContradictionName];

export const cardContradictionReasons = {
  ...contradictionReasons,
  'several-card-contradictions': (figures: Figures & { reasons: string[] }, format) =>
    figures.reasons
      .map((name) => {
        const text = contradictionReasons[name as ContradictionName] as (
          figures: Figures,
          format: ReasonFormat,
        ) => string;
        return text(figures, format);
      })
      .join(' '),
} satisfies ReasonTexts;

function pointsText(
  { cutInKpa, cutOutKpa, cardCutInKpa, cardCutOutKpa }: SwitchPointFigures,
  { pressure }: ReasonFormat,
): string {
  return `The pump starts at ${pressure(cutInKpa)} and stops at ${pressure(cutOutKpa)}; the card says ${pressure(cardCutInKpa)} and ${pressure(cardCutOutKpa)}.`;
}

function fillText({ fillS, drawdownL, expectedS }: FillFigures, { duration, volume }: ReasonFormat): string {
  return `A fill takes ${duration(fillS)}. By the card, the drawdown is ${volume(drawdownL)} and the pump needs about ${duration(expectedS)} for it.`;
}

export function wrongUnitText(unit: WrongUnit): string {
  return WRONG_UNITS[unit];
}
