/**
 * Clamp and motor: rest, running current, the place of the clamp, the lines and the supply. Running
 * current is held against the plate; without one, widely, against the published table of the
 * motor's size (NEC 430.248 and 430.250), which sizes conductors and judges no motor (430.6(A)(1)).
 */
import { median } from '../../baseline/robust.ts';
import type { PumpCard } from '../../domain/card.ts';
import { fullLoadAmps, OVER_PLATE_RATIO } from '../../domain/motor-tables.ts';
import {
  MIN_FIRST_RUNS,
  firstAmps,
  firstCutIn,
  firstCutOut,
  firstRuns,
  medianOf,
} from './first-run-values.ts';
import { KPA_PER_PSI } from '../scene-queries.ts';
import type { Check } from './first-checks.ts';
import { unbalance } from '../electric/leg-imbalance.ts';
import { roundTo } from '../round.ts';
import type { Scene } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/** A clamp's offset: 0.3 A, or 5 % of what the pump draws. */
const MAX_REST_A = 0.3;
const MAX_REST_RATIO = 0.05;
/** The least that a pump at work draws (common practice, no source). */
const MIN_AMPS_RATIO = 0.55;
/**
 * No motor stands a third more for long; a pump that raises pressure by 10 psi draws at least half
 * of its plate (common practice, no source). Pumps of low specific speed take 0.42 to 0.5 of their
 * best point's power at no flow (Karassik, Pump Handbook; from memory).
 */
const IMPOSSIBLE_HIGH_RATIO = 1.35;
const IMPOSSIBLE_LOW_RATIO_RAISING = 0.48;
const IMPOSSIBLE_LOW_RATIO = 0.35;
const MIN_RAISE_KPA = 10 * KPA_PER_PSI;
/**
 * Plates of submersible motors lie 0.9 to 1.6 times the table; with a pump's own range that makes
 * this span.
 */
const MIN_TABLE_RATIO = 0.45;
const MAX_TABLE_RATIO = 1.7;
/**
 * The largest deviation from the mean over the mean, as NEMA MG 1 has it. Makers allow 10 % at
 * rated input; at service-factor load less, which the watch judges (../electric/leg-imbalance.ts).
 */
const MAX_UNBALANCE = 0.1;
/**
 * NEMA MG 1 12.44 (from memory), "Electrical Fundamentals", Water Well Journal, 2024: 10 % of the
 * plate either way.
 */
const MAX_VOLTS_DEVIATION = 0.1;
/** Beyond this it is another system: half is one line to neutral, twice is a 460 V motor. */
const IMPOSSIBLE_VOLTS_DEVIATION = 0.3;

export function checkCurrentAtRest(scene: Scene): Check {
  const { idleAmps, runningAmps, card } = scene.pump;
  if (idleAmps === undefined) return { what: 'current-at-rest', state: 'not-yet' };
  const maxRestA = Math.max(MAX_REST_A, MAX_REST_RATIO * (runningAmps ?? 0));
  const explained = card.alsoOnClamp !== undefined || card.control === 'variable-speed';
  return {
    what: 'current-at-rest',
    state: Math.abs(idleAmps) <= maxRestA || explained ? 'agrees' : 'differs',
    measured: [{ value: roundTo(idleAmps), dimension: 'current' }],
  };
}

export function checkRunningAmps(scene: Scene): Check {
  const { card } = scene.pump;
  const amps = firstAmps(scene);
  const maxAmps = card.maxAmps ?? tableAmpsOf(card);
  // What a drive takes in at part of its speed is no measure of the motor behind it; nor is what
  // one lead of three carries.
  const lead = card.clamp !== undefined && card.clamp !== 'line';
  if (amps === undefined || maxAmps === undefined || card.control === 'variable-speed' || lead)
    return { what: 'running-amps', state: 'not-yet' };
  const ratio = amps / maxAmps;
  const byPlate = card.maxAmps !== undefined;
  const agrees = byPlate
    ? ratio <= OVER_PLATE_RATIO && ratio >= MIN_AMPS_RATIO
    : ratio <= MAX_TABLE_RATIO && ratio >= MIN_TABLE_RATIO;
  const impossible = byPlate ? impossibleAmps(scene, amps, maxAmps) : undefined;
  return {
    what: 'running-amps',
    state: agrees ? 'agrees' : 'differs',
    card: [{ value: maxAmps, dimension: 'current' }],
    measured: [{ value: roundTo(amps), dimension: 'current' }],
    ...(impossible && { impossible }),
  };
}

function tableAmpsOf({ motorW, volts, phase }: PumpCard): number | undefined {
  return motorW === undefined || volts === undefined || phase === undefined
    ? undefined
    : fullLoadAmps({ motorW, volts, phase });
}

function impossibleAmps(scene: Scene, amps: number, maxAmps: number): Check['impossible'] {
  const ratio = amps / maxAmps;
  // Behind a valve that holds pressure a pump turns near shut-off for most of a run.
  const raises =
    scene.pump.card.control !== 'constant-pressure-valve' &&
    (firstCutOut(scene) ?? 0) - (firstCutIn(scene) ?? 0) > MIN_RAISE_KPA;
  const least = raises ? IMPOSSIBLE_LOW_RATIO_RAISING : IMPOSSIBLE_LOW_RATIO;
  if (ratio < IMPOSSIBLE_HIGH_RATIO && ratio > least) return undefined;
  const over = ratio > 1;
  return {
    ...(over
      ? { reason: 'current-too-high-for-card', figures: { runningA: amps, cardMaxA: maxAmps } }
      : {
          reason: 'current-too-low-for-card',
          figures: {
            runningA: amps,
            cardMaxA: maxAmps,
            raisesPressure: raises,
            mayBeStartLead: hasStartLead(scene),
          },
        }),
    evidence: { amps: roundTo(amps), maxAmps, ratio: roundTo(ratio) },
    causes: over
      ? weighCauses({ 'bad-card': 0.65, 'clamp-off': 0.35 })
      : weighCauses(raises ? { 'bad-card': 0.7, 'clamp-off': 0.3 } : { 'bad-card': 0.5, 'clamp-off': 0.5 }),
  };
}

/**
 * On boxes with a relay a three-wire motor's start lead carries next to nothing once it runs; on
 * capacitor-run boxes it carries some amps (common practice, no source).
 */
function hasStartLead({ pump }: Scene): boolean {
  return pump.card.wires === 3 && pump.card.phase !== 3;
}

/**
 * Runs that were found by their current raise pressure: then the clamp sees them. That it misses
 * some is found by ../sensing/clamp-fault.ts.
 */
export function checkClampPlace(scene: Scene): Check {
  const runs = firstRuns(scene);
  return { what: 'clamp-place', state: runs.length < MIN_FIRST_RUNS ? 'not-yet' : 'agrees' };
}

export function checkLegs(scene: Scene): Check | undefined {
  if (scene.pump.card.phase !== 3 || scene.pump.card.control === 'variable-speed') return undefined;
  const shares = firstRuns(scene).flatMap(({ amps, amps2, amps3 }) =>
    amps === undefined || amps2 === undefined || amps3 === undefined ? [] : [unbalance([amps, amps2, amps3])],
  );
  if (shares.length < MIN_FIRST_RUNS) return { what: 'legs', state: 'not-yet' };
  return { what: 'legs', state: median(shares)! <= MAX_UNBALANCE ? 'agrees' : 'differs' };
}

export function checkVolts(scene: Scene): Check | undefined {
  const volts = medianOf(firstRuns(scene), 'volts');
  const plate = scene.pump.card.volts;
  if (volts === undefined || plate === undefined)
    return volts === undefined && plate === undefined ? undefined : { what: 'volts', state: 'not-yet' };
  const off = volts / plate - 1;
  return {
    what: 'volts',
    state: Math.abs(off) <= MAX_VOLTS_DEVIATION ? 'agrees' : 'differs',
    card: [{ value: plate, dimension: 'voltage' }],
    measured: [{ value: roundTo(volts, 1), dimension: 'voltage' }],
    ...(Math.abs(off) > IMPOSSIBLE_VOLTS_DEVIATION && {
      impossible: {
        reason: 'voltage-differs-from-card',
        figures: { runningV: volts, cardV: plate },
        evidence: { volts: roundTo(volts, 1), cardVolts: plate },
        causes: weighCauses({ 'bad-card': 0.7, 'supply-voltage': 0.3 }),
      },
    }),
  };
}
