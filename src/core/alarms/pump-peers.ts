/**
 * Several pumps on one well. Those that serve the same side, the taps' pressure or the store, are
 * company: they may take turns, or one may come only when the other cannot keep up. Which it is, is
 * learnt from who ran how often; a card does not say it.
 */
import type { DayEvent } from '../../../shared/api/events.ts';
import { lowestCutInKpa, KPA_PER_PSI, usesPressure } from './scene-queries.ts';
import type { PumpScene, Scene } from './scene.ts';

const NO_PEERS: readonly PumpScene[] = [];

/** The other pumps that do this one's work: on the same pressure, or into the same store. */
export function peersOf(scene: Scene): readonly PumpScene[] {
  const { pump } = scene;
  if (pump.hasOwnPressure || scene.pumps.length === 1) return NO_PEERS;
  return scene.pumps.filter(
    (other) =>
      other.index !== pump.index && !other.hasOwnPressure && usesPressure(other) === usesPressure(pump),
  );
}

/** Starts a day as learnt; 0 where nothing is. */
function startsPerDay(pump: PumpScene): number {
  return pump.baseline?.cyclesPerDay?.median ?? 0;
}

/**
 * Of what belongs to all of them (the tank, starts that come too close), the pump that starts most
 * speaks; so one fault is told once. Of equals the first on the card.
 */
export function reportsForGroup(scene: Scene): boolean {
  const mine = startsPerDay(scene.pump);
  return peersOf(scene).every((other) => {
    const theirs = startsPerDay(other);
    return theirs < mine || (theirs === mine && other.index > scene.pump.index);
  });
}

/**
 * Does this pump speak of its pressure as measured? Its own is its own; of the whole well's the
 * first pump that works on it does, or the first of all where none does.
 */
export function reportsPressure(scene: Scene): boolean {
  if (scene.pump.hasOwnPressure || scene.pumps.length === 1) return true;
  const shared = scene.pumps.filter((pump) => !pump.hasOwnPressure);
  return (shared.find(usesPressure) ?? shared[0])?.index === scene.pump.index;
}

/** A lag pump's cut-in lies under that of the one it helps by more than switches scatter. */
const LAG_UNDER_KPA = 3 * KPA_PER_PSI;

/** Does this pump start at a lower pressure than its company, to help it? */
export function isLagPump(scene: Scene): boolean {
  const mine = ownCutIn(scene, scene.pump);
  if (mine === undefined) return false;
  return peersOf(scene).some((other) => {
    const theirs = ownCutIn(scene, other);
    return theirs !== undefined && mine < theirs - LAG_UNDER_KPA;
  });
}

/** The lowest cut-in that is known of this very pump: the card's one switch is the first pump's. */
export function ownCutIn(scene: Scene, pump: PumpScene): number | undefined {
  const peerScene = pump === scene.pump ? scene : { ...scene, pump };
  return lowestCutInKpa(peerScene, pump.index === 0);
}

/** Starts a day from which a share can be told, and how far from equal shares still are turns. */
const MIN_STARTS_PER_DAY = 2;
const MAX_START_RATIO = 3;
/**
 * Days on which both ran, of those that are remembered. Pumps that change over each week have none,
 * and are not judged.
 */
const MIN_DAYS_TOGETHER = 5;

/** The pump with which this one takes turns, where that was learnt. */
export function alternatesWith(scene: Scene): PumpScene | undefined {
  const mine = startsPerDay(scene.pump);
  if (mine < MIN_STARTS_PER_DAY) return undefined;
  return peersOf(scene).find((other) => {
    const theirs = startsPerDay(other);
    if (theirs < MIN_STARTS_PER_DAY || theirs > MAX_START_RATIO * mine || mine > MAX_START_RATIO * theirs)
      return false;
    return daysTogether(scene.well.days, scene.pump.card.id, other.card.id) >= MIN_DAYS_TOGETHER;
  });
}

function daysTogether(days: readonly DayEvent[], one: string, two: string): number {
  const ran = (id: string): string[] =>
    days.filter((day) => day.pump === id && (day.cycles ?? 0) > 0).map((day) => day.date);
  const ofTwo = new Set(ran(two));
  return ran(one).filter((date) => ofTwo.has(date)).length;
}
