/**
 * Transducer and switch: the unit in which the node sends, whether pressure moves at all, and where the pump starts and stops. A factor
 * that turns what is read into what the card says at both points, and that is one of the factors between units, is a wrong unit and nothing else.
 */
import { atmosphericKpa } from '../../shared/units/altitude.ts';
import { FIRST_RUNS, firstCutIn, firstCutOut, firstRuns } from './check-facts.ts';
import { appliesTo } from './applies.ts';
import { freshCycles, isWhole, PSI, usesPressure } from './facts.ts';
import type { Check } from './first-check.ts';
import { sayPressure, tidy } from './say.ts';
import type { Finding, Scene } from './scene.ts';
import { weigh } from './weigh.ts';

/** What a switch, a dial and a transducer may differ by (3 psi), and what cannot be all of theirs (7 psi, at both points alike): switches go by tens. */
const NEAR_KPA = 3 * PSI;
const AWAY_KPA = 7 * PSI;
/** Runs of a working pump move more than a transducer's noise: 1 psi. */
const MOVES_KPA = PSI;
/** Both points must agree on the factor to this share: a switch is off by 10 % at most when nobody touched it. */
const FACTOR_SHARE = 0.12;

/** Runs that must all show it. */
const CHANGED_RUNS = 3;

/** How much too small a reading is, by what was sent where pascals are due. */
const UNITS: readonly (readonly [factor: number, what: string])[] = [
  [1000 * PSI, 'psi are sent where pascals are due'],
  [PSI, 'psi are sent as if they were kilopascals'],
  [1000, 'kilopascals are sent where pascals are due'],
  [100_000, 'bar are sent where pascals are due'],
  [100, 'bar are sent as if they were kilopascals'],
  [1 / PSI, 'kilopascals are taken for psi'],
  [1 / 1000, 'pascals are sent as if they were kilopascals'],
];

function asksSwitch(scene: Scene): boolean {
  return appliesTo('switch-shift', scene.pump.card.control) && scene.pump.index === 0;
}

export function checkPressureUnit(scene: Scene): Check | undefined {
  if (!asksSwitch(scene)) return undefined;
  const points = pointsOf(scene);
  if (!points) return { what: 'pressure-unit', state: 'not-yet' };
  const unit = wrongUnit(points);
  return {
    what: 'pressure-unit',
    state: unit === undefined ? 'agrees' : 'differs',
    card: [figure(points.cardIn), figure(points.cardOut)],
    measured: [figure(points.cutIn), figure(points.cutOut)],
    ...(unit !== undefined && {
      impossible: {
        why: `The switch works between ${sayFine(points.cutIn)} and ${sayFine(points.cutOut)} by the readings, and between ${sayPressure(points.cardIn)} and ${sayPressure(points.cardOut)} by the card: ${unit}, or the card is in the wrong unit.`,
        evidence: pointFacts(points),
        causes: unitCauses(points),
      },
    }),
  };
}

/** A node that was set up anew: its last runs lie by one of the factors between units off what this switch was learnt to do. */
export function changedUnit(scene: Scene): Finding | undefined {
  const { pinned } = scene.pump;
  const runs = freshCycles(scene, CHANGED_RUNS, isWhole);
  if (!asksSwitch(scene) || !pinned?.cutInKpa || !pinned.cutOutKpa || runs.length < CHANGED_RUNS)
    return undefined;
  const points = runs.flatMap(({ cutInKpa: cutIn, cutOutKpa: cutOut }): Points[] =>
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
    sinceMs: runs[0]!.startedMs,
    why: `The switch works between ${sayFine(last.cutIn)} and ${sayFine(last.cutOut)} by the readings, and used to between ${sayPressure(last.cardIn)} and ${sayPressure(last.cardOut)}: ${unit} since then.`,
    evidence: pointFacts(last),
    causes: weigh({ 'transducer-fault': 0.9, 'bad-card': 0.1 }),
  };
}

interface Points {
  cutIn: number;
  cutOut: number;
  cardIn: number;
  cardOut: number;
}

function pointsOf(scene: Scene): Points | undefined {
  const { cutInKpa: cardIn, cutOutKpa: cardOut } = scene.well.card.switch;
  const cutIn = firstCutIn(scene);
  const cutOut = firstCutOut(scene);
  return cardIn === undefined || cardOut === undefined || cutIn === undefined || cutOut === undefined
    ? undefined
    : { cutIn, cutOut, cardIn, cardOut };
}

function wrongUnit({ cutIn, cutOut, cardIn, cardOut }: Points): string | undefined {
  if (cutIn <= 0 || cutOut <= 0) return undefined;
  const found = UNITS.find(
    ([factor]) => near((factor * cutIn) / cardIn) && near((factor * cutOut) / cardOut),
  );
  return found?.[1];
}

/** Whose figures could be a switch's at all: from 15 to 100 psi at cut-out (common practice). */
function unitCauses({ cutOut, cardOut }: Points): Finding['causes'] {
  const [reads, says] = [cutOut, cardOut].map((kpa) => kpa > 15 * PSI && kpa < 100 * PSI);
  if (reads === says) return weigh({ 'transducer-fault': 0.5, 'bad-card': 0.5 });
  return reads
    ? weigh({ 'bad-card': 0.85, 'transducer-fault': 0.15 })
    : weigh({ 'transducer-fault': 0.85, 'bad-card': 0.15 });
}

function near(share: number): boolean {
  return Math.abs(share - 1) <= FACTOR_SHARE;
}

/** Pressures far too small want their decimals. */
function sayFine(kpa: number): string {
  return Math.abs(kpa) < 5 ? `${tidy(kpa, 3)} kPa` : sayPressure(kpa);
}

export function checkPressureMoves(scene: Scene): Check | undefined {
  if (!usesPressure(scene.pump) || scene.pump.index > 0) return undefined;
  const runs = firstRuns(scene).filter((run) => run.cutInKpa !== undefined && run.cutOutKpa !== undefined);
  if (runs.length < FIRST_RUNS) return { what: 'pressure-moves', state: 'not-yet' };
  // A drive holds its pressure: there a gauge that stands is as it should be.
  const still = runs.every((run) => Math.abs(run.cutOutKpa! - run.cutInKpa!) < MOVES_KPA);
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
  const impossible = points && bothAway(scene, points);
  return check && impossible ? { ...check, impossible } : check;
}

function checkPoint(
  scene: Scene,
  what: 'cut-in' | 'cut-out',
  kpa: number | undefined,
  card: number | undefined,
): Check | undefined {
  if (!asksSwitch(scene)) return undefined;
  return {
    what,
    state:
      kpa === undefined || card === undefined
        ? 'not-yet'
        : Math.abs(kpa - card) <= NEAR_KPA
          ? 'agrees'
          : 'differs',
    ...(card !== undefined && { card: [figure(card)] }),
    ...(kpa !== undefined && { measured: [figure(kpa)] }),
  };
}

/** One point far off may be a switch out of set; both, the same way, are a card of another switch or a gauge that reads wrong. */
function bothAway(scene: Scene, points: Points): Check['impossible'] {
  const awayIn = points.cutIn - points.cardIn;
  const awayOut = points.cutOut - points.cardOut;
  if (Math.min(Math.abs(awayIn), Math.abs(awayOut)) < AWAY_KPA || Math.sign(awayIn) !== Math.sign(awayOut))
    return undefined;
  if (wrongUnit(points) !== undefined) return undefined;
  const air = atmosphericKpa(scene.well.card.altitudeM);
  const absolute = Math.abs(awayIn - air) < NEAR_KPA && Math.abs(awayOut - air) < NEAR_KPA;
  return {
    why: `The switch works between ${sayPressure(points.cutIn)} and ${sayPressure(points.cutOut)}, and the card says ${sayPressure(points.cardIn)} and ${sayPressure(points.cardOut)}: the card or the transducer is wrong${absolute ? ', as a transducer is that reads absolute pressure' : ''}.`,
    evidence: pointFacts(points),
    causes: absolute
      ? weigh({ 'transducer-fault': 0.55, 'bad-card': 0.35, 'switch-out-of-set': 0.1 })
      : weigh({ 'bad-card': 0.5, 'transducer-fault': 0.3, 'switch-out-of-set': 0.2 }),
  };
}

function pointFacts({ cutIn, cutOut, cardIn, cardOut }: Points): Record<string, number> {
  return {
    cutInKpa: tidy(cutIn, 3),
    cutOutKpa: tidy(cutOut, 3),
    cardCutInKpa: tidy(cardIn, 0),
    cardCutOutKpa: tidy(cardOut, 0),
  };
}

function figure(kpa: number): { value: number; is: 'pressure' } {
  return { value: tidy(kpa, 1), is: 'pressure' };
}
