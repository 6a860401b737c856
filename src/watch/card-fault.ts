/**
 * Card and sensor that cannot both be right, seen in the first runs or in what was learnt from them: a switch that works 10 psi
 * away from its card at both points, and a motor that draws a third more than its maximum from the first day, or a third of it. What changes
 * later is news of the well and not of the card.
 */
import { median } from '../baseline/robust.ts';
import { appliesTo } from './applies.ts';
import type { Cycle } from '../cycles/cycle.ts';
import { freshCycles, isFresh, isWhole, PSI } from './facts.ts';
import { sayAmps, sayPressure, tidy } from './say.ts';
import type { Finding, Memo, Scene } from './scene.ts';
import { weigh } from './weigh.ts';

const RUNS = 10;
const AWAY_KPA = 10 * PSI;
const MUCH_OVER = 1.35;
const MUCH_UNDER = 0.35;

export function cardFault(scene: Scene, memo: Memo): Finding | undefined {
  const { card, pinned, cycles } = scene.pump;
  // A well that once agreed with its card has not got a wrong card when it stops to.
  if (memo['cardAgreed'] === true) return undefined;
  const first = cycles[0];
  if (!first || !isFresh(scene, first.startedMs)) return undefined;
  const amps = pinned?.amps?.median ?? medianOf(scene, (cycle) => cycle.amps);
  const cutIn = pinned?.cutInKpa?.median ?? medianOf(scene, (cycle) => cycle.cutInKpa);
  const cutOut = pinned?.cutOutKpa?.median ?? medianOf(scene, (cycle) => cycle.cutOutKpa);
  const byAmps =
    // What a drive takes in at part of its speed is no measure of the motor behind it.
    amps === undefined || card.maxAmps === undefined || card.control === 'variable-speed'
      ? undefined
      : ampsFault(scene, amps, card.maxAmps);
  const byPressure =
    cutIn === undefined ||
    cutOut === undefined ||
    !appliesTo('switch-shift', card.control) ||
    scene.pump.index > 0
      ? undefined
      : switchFault(scene, cutIn, cutOut);
  if (!byAmps && !byPressure && pinned) memo['cardAgreed'] = true;
  return byAmps ?? byPressure;
}

function medianOf(scene: Scene, value: (cycle: Cycle) => number | undefined): number | undefined {
  const last = freshCycles(scene, RUNS, (cycle) => value(cycle) !== undefined && isWhole(cycle));
  return last.length < RUNS ? undefined : median(last.map((cycle) => value(cycle)!));
}

function ampsFault(scene: Scene, amps: number, maxAmps: number): Finding | undefined {
  const share = amps / maxAmps;
  if (share < MUCH_OVER && share > MUCH_UNDER) return undefined;
  const how =
    share > 1
      ? 'a motor could not stand that for long: the card, the scale of the clamp or a second load on its conductor is wrong'
      : 'an idling motor draws more: the clamp sits round two conductors, its scale is wrong, or the card is';
  return {
    sinceMs: scene.pump.cycles[0]?.startedMs ?? scene.atMs,
    why: `The pump shows ${sayAmps(amps)} and its card says at most ${sayAmps(maxAmps)}; ${how}.`,
    evidence: { amps: tidy(amps), maxAmps, share: tidy(share) },
    causes: weigh({ 'bad-card': 0.55, 'clamp-off': 0.45 }),
  };
}

function switchFault(scene: Scene, cutIn: number, cutOut: number): Finding | undefined {
  const { cutInKpa, cutOutKpa } = scene.well.card.switch;
  if (cutInKpa === undefined || cutOutKpa === undefined) return undefined;
  const awayIn = cutIn - cutInKpa;
  const awayOut = cutOut - cutOutKpa;
  if (Math.min(Math.abs(awayIn), Math.abs(awayOut)) < AWAY_KPA || Math.sign(awayIn) !== Math.sign(awayOut))
    return undefined;
  return {
    sinceMs: scene.pump.cycles[0]?.startedMs ?? scene.atMs,
    why: `The switch works between ${sayPressure(cutIn)} and ${sayPressure(cutOut)}, and the card says ${sayPressure(cutInKpa)} and ${sayPressure(cutOutKpa)}: the card or the transducer is wrong.`,
    evidence: {
      cutInKpa: tidy(cutIn, 0),
      cutOutKpa: tidy(cutOut, 0),
      cardCutInKpa: tidy(cutInKpa, 0),
      cardCutOutKpa: tidy(cutOutKpa, 0),
    },
    causes: weigh({ 'bad-card': 0.5, 'transducer-fault': 0.3, 'switch-out-of-set': 0.2 }),
  };
}
