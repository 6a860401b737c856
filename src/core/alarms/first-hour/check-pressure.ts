/**
 * Transducer and switch: the unit in which the node sends, whether pressure moves at all, and where
 * the pump starts and stops. A factor that turns what is read into what the card says at both
 * points, and that is one of the factors between units, is a wrong unit and nothing else.
 */
import { atmosphericKpa } from '../../../../shared/units/altitude.ts';
import { MIN_FIRST_RUNS, firstCutIn, firstCutOut, firstRuns } from './first-run-values.ts';
import { appliesTo } from '../applies.ts';
import { recentCycles, isCompleteRun, KPA_PER_PSI, usesPressure } from '../scene-queries.ts';
import type { Check } from './first-checks.ts';
import type {
  SwitchPointFigures,
  WrongUnit,
} from '../../../../shared/text/en/alarms/sensing/card-contradictions.ts';
import type { Active } from '../evaluation.ts';
import { roundTo } from '../round.ts';
import type { Scene } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * What a switch, a dial and a transducer may differ by (3 psi), and what cannot be all of theirs (7
 * psi, at both points alike): switches go by tens.
 */
const POINT_TOLERANCE_KPA = 3 * KPA_PER_PSI;
const IMPOSSIBLE_KPA = 7 * KPA_PER_PSI;
/** Runs of a working pump move more than a transducer's noise: 1 psi. */
const MIN_MOVE_KPA = KPA_PER_PSI;
/**
 * Both points must agree on the factor to this share: a switch is off by 10 % at most when nobody
 * touched it.
 */
const FACTOR_TOLERANCE = 0.12;

/** Runs that must all show it. */
const CHANGED_RUNS = 3;

/** How much too small a reading is, by what was sent where pascals are due. */
const UNIT_FACTORS: readonly (readonly [factor: number, what: WrongUnit])[] = [
  [1000 * KPA_PER_PSI, 'psi-as-pa'],
  [KPA_PER_PSI, 'psi-as-kpa'],
  [1000, 'kpa-as-pa'],
  [100_000, 'bar-as-pa'],
  [100, 'bar-as-kpa'],
  [1 / KPA_PER_PSI, 'kpa-as-psi'],
  [1 / 1000, 'pa-as-kpa'],
];

function appliesToSwitch(scene: Scene): boolean {
  return appliesTo('switch-shift', scene.pump.card) && scene.pump.index === 0;
}

export function checkPressureUnit(scene: Scene): Check | undefined {
  if (!appliesToSwitch(scene)) return undefined;
  const points = pointsOf(scene);
  if (!points) return { what: 'pressure-unit', state: 'not-yet' };
  const unit = wrongUnit(points);
  return {
    what: 'pressure-unit',
    state: unit === undefined ? 'agrees' : 'differs',
    card: [pressureFigure(points.cardIn), pressureFigure(points.cardOut)],
    measured: [pressureFigure(points.cutIn), pressureFigure(points.cutOut)],
    ...(unit !== undefined && {
      impossible: {
        reason: 'pressure-in-wrong-unit',
        figures: { ...pointFigures(points), unit },
        evidence: pointEvidence(points),
        causes: unitCauses(points),
      },
    }),
  };
}

/**
 * A node that was set up anew: its last runs lie by one of the factors between units off what this
 * switch was learnt to do.
 */
export function changedUnit(scene: Scene): Active | undefined {
  const { pinned } = scene.pump;
  const runs = recentCycles(scene, CHANGED_RUNS, isCompleteRun);
  if (!appliesToSwitch(scene) || !pinned?.cutInKpa || !pinned.cutOutKpa || runs.length < CHANGED_RUNS)
    return undefined;
  const points = runs.flatMap(({ cutInKpa: cutIn, cutOutKpa: cutOut }): SwitchPoints[] =>
    cutIn === undefined || cutOut === undefined
      ? []
      : [{ cutIn, cutOut, cardIn: pinned.cutInKpa!.median, cardOut: pinned.cutOutKpa!.median }],
  );
  const units = points.map(wrongUnit);
  const unit = units[0];
  if (points.length < CHANGED_RUNS || unit === undefined || units.some((one) => one !== unit))
    return undefined;
  const last = points[points.length - 1]!;
  return {
    is: 'active',
    sinceMs: runs[0]!.startedMs,
    reason: 'pressure-unit-changed',
    figures: {
      cutInKpa: last.cutIn,
      cutOutKpa: last.cutOut,
      learnedCutInKpa: last.cardIn,
      learnedCutOutKpa: last.cardOut,
      unit,
    },
    evidence: pointEvidence(last),
    causes: weighCauses({ 'transducer-fault': 0.9, 'bad-card': 0.1 }),
  };
}

interface SwitchPoints {
  cutIn: number;
  cutOut: number;
  cardIn: number;
  cardOut: number;
}

function pointsOf(scene: Scene): SwitchPoints | undefined {
  const { cutInKpa: cardIn, cutOutKpa: cardOut } = scene.well.card.switch;
  const cutIn = firstCutIn(scene);
  const cutOut = firstCutOut(scene);
  return cardIn === undefined || cardOut === undefined || cutIn === undefined || cutOut === undefined
    ? undefined
    : { cutIn, cutOut, cardIn, cardOut };
}

function wrongUnit({ cutIn, cutOut, cardIn, cardOut }: SwitchPoints): WrongUnit | undefined {
  if (cutIn <= 0 || cutOut <= 0) return undefined;
  const found = UNIT_FACTORS.find(
    ([factor]) => isNearOne((factor * cutIn) / cardIn) && isNearOne((factor * cutOut) / cardOut),
  );
  return found?.[1];
}

/** Whose figures could be a switch's at all: from 15 to 100 psi at cut-out (common practice). */
function unitCauses({ cutOut, cardOut }: SwitchPoints): Active['causes'] {
  const [reads, says] = [cutOut, cardOut].map((kpa) => kpa > 15 * KPA_PER_PSI && kpa < 100 * KPA_PER_PSI);
  if (reads === says) return weighCauses({ 'transducer-fault': 0.5, 'bad-card': 0.5 });
  return reads
    ? weighCauses({ 'bad-card': 0.85, 'transducer-fault': 0.15 })
    : weighCauses({ 'transducer-fault': 0.85, 'bad-card': 0.15 });
}

function isNearOne(share: number): boolean {
  return Math.abs(share - 1) <= FACTOR_TOLERANCE;
}

export function checkPressureMoves(scene: Scene): Check | undefined {
  if (!usesPressure(scene.pump) || scene.pump.index > 0) return undefined;
  const runs = firstRuns(scene).filter((run) => run.cutInKpa !== undefined && run.cutOutKpa !== undefined);
  if (runs.length < MIN_FIRST_RUNS) return { what: 'pressure-moves', state: 'not-yet' };
  // A drive holds its pressure: there a gauge that stands is as it should be.
  const still = runs.every((run) => Math.abs(run.cutOutKpa! - run.cutInKpa!) < MIN_MOVE_KPA);
  return {
    what: 'pressure-moves',
    state: still && scene.pump.card.control !== 'variable-speed' ? 'differs' : 'agrees',
  };
}

export function checkCutIn(scene: Scene): Check | undefined {
  return checkPoint(scene, 'cut-in', firstCutIn(scene), scene.well.card.switch.cutInKpa);
}

export function checkCutOut(scene: Scene): Check | undefined {
  const check = checkPoint(scene, 'cut-out', firstCutOut(scene), scene.well.card.switch.cutOutKpa);
  const points = check && pointsOf(scene);
  const impossible = points && impossiblePoints(scene, points);
  return check && impossible ? { ...check, impossible } : check;
}

function checkPoint(
  scene: Scene,
  what: 'cut-in' | 'cut-out',
  kpa: number | undefined,
  card: number | undefined,
): Check | undefined {
  if (!appliesToSwitch(scene)) return undefined;
  return {
    what,
    state:
      kpa === undefined || card === undefined
        ? 'not-yet'
        : Math.abs(kpa - card) <= POINT_TOLERANCE_KPA
          ? 'agrees'
          : 'differs',
    ...(card !== undefined && { card: [pressureFigure(card)] }),
    ...(kpa !== undefined && { measured: [pressureFigure(kpa)] }),
  };
}

/**
 * One point far off may be a switch out of set; both, the same way, are a card of another switch or
 * a gauge that reads wrong.
 */
function impossiblePoints(scene: Scene, points: SwitchPoints): Check['impossible'] {
  const awayIn = points.cutIn - points.cardIn;
  const awayOut = points.cutOut - points.cardOut;
  if (
    Math.min(Math.abs(awayIn), Math.abs(awayOut)) < IMPOSSIBLE_KPA ||
    Math.sign(awayIn) !== Math.sign(awayOut)
  )
    return undefined;
  if (wrongUnit(points) !== undefined) return undefined;
  const air = atmosphericKpa(scene.well.card.altitudeM);
  const absolute =
    Math.abs(awayIn - air) < POINT_TOLERANCE_KPA && Math.abs(awayOut - air) < POINT_TOLERANCE_KPA;
  return {
    reason: 'switch-points-differ-from-card',
    figures: { ...pointFigures(points), mayBeAbsolute: absolute },
    evidence: pointEvidence(points),
    causes: absolute
      ? weighCauses({ 'transducer-fault': 0.55, 'bad-card': 0.35, 'switch-out-of-set': 0.1 })
      : weighCauses({ 'bad-card': 0.5, 'transducer-fault': 0.3, 'switch-out-of-set': 0.2 }),
  };
}

function pointFigures({ cutIn, cutOut, cardIn, cardOut }: SwitchPoints): SwitchPointFigures {
  return { cutInKpa: cutIn, cutOutKpa: cutOut, cardCutInKpa: cardIn, cardCutOutKpa: cardOut };
}

function pointEvidence({ cutIn, cutOut, cardIn, cardOut }: SwitchPoints): Record<string, number> {
  return {
    cutInKpa: roundTo(cutIn, 3),
    cutOutKpa: roundTo(cutOut, 3),
    cardCutInKpa: roundTo(cardIn, 0),
    cardCutOutKpa: roundTo(cardOut, 0),
  };
}

function pressureFigure(kpa: number): { value: number; dimension: 'pressure' } {
  return { value: roundTo(kpa, 1), dimension: 'pressure' };
}
