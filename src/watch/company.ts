/**
 * Several pumps on one well. Those that serve the same side, the taps' pressure or the store, are company: they may take turns, or one may
 * come only when the other cannot keep up. Which it is, is learnt from who ran how often; a card does not say it.
 */
import type { DayEvent } from '../../shared/api/events.ts';
import { lowestCutIn, PSI, usesPressure } from './facts.ts';
import type { PumpScene, Scene } from './scene.ts';

const NONE: readonly PumpScene[] = [];

/** The other pumps that do this one's work: on the same pressure, or into the same store. */
export function companyOf(scene: Scene): readonly PumpScene[] {
  const { pump } = scene;
  if (pump.ownPressure || scene.pumps.length === 1) return NONE;
  return scene.pumps.filter(
    (other) => other.index !== pump.index && !other.ownPressure && usesPressure(other) === usesPressure(pump),
  );
}

/** Starts a day as learnt; 0 where nothing is. */
function startsADay(pump: PumpScene): number {
  return pump.baseline?.cyclesPerDay?.median ?? 0;
}

/**
 * Of what belongs to all of them (the tank, starts that come too close), the pump that starts most speaks; so one fault is told once. Of equals
 * the first on the card.
 */
export function speaksForAll(scene: Scene): boolean {
  const mine = startsADay(scene.pump);
  return companyOf(scene).every((other) => {
    const theirs = startsADay(other);
    return theirs < mine || (theirs === mine && other.index > scene.pump.index);
  });
}

/**
 * Does this pump speak of its pressure as measured? Its own is its own; of the whole well's the first pump that works on it does, or the first
 * of all where none does.
 */
export function speaksForPressure(scene: Scene): boolean {
  if (scene.pump.ownPressure || scene.pumps.length === 1) return true;
  const shared = scene.pumps.filter((pump) => !pump.ownPressure);
  return (shared.find(usesPressure) ?? shared[0])?.index === scene.pump.index;
}

/** A lag pump's cut-in lies under that of the one it helps by more than switches scatter. */
const LAG_UNDER_KPA = 3 * PSI;

/** Does this pump start at a lower pressure than its company, to help it? */
export function isLag(scene: Scene): boolean {
  const mine = ownCutIn(scene, scene.pump);
  if (mine === undefined) return false;
  return companyOf(scene).some((other) => {
    const theirs = ownCutIn(scene, other);
    return theirs !== undefined && mine < theirs - LAG_UNDER_KPA;
  });
}

/** The lowest cut-in that is known of this very pump: the card's one switch is the first pump's. */
export function ownCutIn(scene: Scene, pump: PumpScene): number | undefined {
  const asked = pump === scene.pump ? scene : { ...scene, pump };
  return lowestCutIn(asked, pump.index === 0);
}

/** Starts a day from which a share can be told, and how far from equal shares still are turns. */
const LEAST_STARTS = 2;
const UNEQUAL = 3;
/** Days on which both ran, of those that are remembered. Pumps that change over each week have none, and are not judged. */
const DAYS_TOGETHER = 5;

/** The pump with which this one takes turns, where that was learnt. */
export function turnsWith(scene: Scene): PumpScene | undefined {
  const mine = startsADay(scene.pump);
  if (mine < LEAST_STARTS) return undefined;
  return companyOf(scene).find((other) => {
    const theirs = startsADay(other);
    if (theirs < LEAST_STARTS || theirs > UNEQUAL * mine || mine > UNEQUAL * theirs) return false;
    return daysTogether(scene.well.days, scene.pump.card.id, other.card.id) >= DAYS_TOGETHER;
  });
}

function daysTogether(days: readonly DayEvent[], one: string, two: string): number {
  const ran = (id: string): string[] =>
    days.filter((day) => day.pump === id && (day.cycles ?? 0) > 0).map((day) => day.date);
  const ofTwo = new Set(ran(two));
  return ran(one).filter((date) => ofTwo.has(date)).length;
}
