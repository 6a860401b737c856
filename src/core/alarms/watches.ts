/**
 * All watches, in the order in which they are asked. Those whose alarm explains others come first,
 * so that the others find it standing and become its symptoms
 * (src/core/alarms/lifecycle/symptoms.ts). `site-silent` and `not-watched` are not here: no well
 * can find them (./sensing/site-silent.ts, ./sensing/not-watched.ts). What they find is weighed
 * again by all that is known beside it (./reweigh-by-clues.ts).
 */
import { ampsHigh } from './electric/amps-high.ts';
import { ampsLow } from './electric/amps-low.ts';
import { cutOutNotReached } from './pump/cut-out-not-reached.ts';
import { cycleCount } from './water/cycle-count.ts';
import { dryRun } from './pump/dry-run.ts';
import { failedStart } from './pump/failed-start.ts';
import { freezeRisk } from './water/freeze-risk.ts';
import { leak } from './water/leak.ts';
import { legImbalance } from './electric/leg-imbalance.ts';
import { legLost } from './electric/leg-lost.ts';
import { levelLow } from './water/level-low.ts';
import { longRun } from './pump/long-run.ts';
import { noRun } from './pump/no-run.ts';
import { noStart } from './pump/no-start.ts';
import { noWater } from './water/no-water.ts';
import { nodeConflict } from './sensing/node-conflict.ts';
import { nodeSilent } from './sensing/node-silent.ts';
import { overPressure } from './water/over-pressure.ts';
import { powerLost } from './electric/power-lost.ts';
import type { Evaluation } from './evaluation.ts';
import type { Scene, Watch } from './scene.ts';
import { sensorFault } from './sensing/sensor-fault.ts';
import { shortCycling } from './water/short-cycling.ts';
import { slowFill } from './pump/slow-fill.ts';
import { startsOverLimit } from './water/starts-over-limit.ts';
import { storeLow } from './water/store-low.ts';
import { supplyVoltage } from './electric/supply-voltage.ts';
import { switchShift } from './water/switch-shift.ts';
import { tankAirLost } from './water/tank-air-lost.ts';
import { tankOvercharged } from './water/tank-overcharged.ts';
import { reweighByClues } from './reweigh-by-clues.ts';

const WATCHES_IN_ORDER: readonly Watch[] = [
  powerLost,
  nodeConflict,
  nodeSilent,
  sensorFault,
  legLost,
  failedStart,
  overPressure,
  dryRun,
  noStart,
  longRun,
  noWater,
  noRun,
  storeLow,
  supplyVoltage,
  levelLow,
  freezeRisk,
  tankOvercharged,
  tankAirLost,
  leak,
  shortCycling,
  startsOverLimit,
  cutOutNotReached,
  slowFill,
  ampsHigh,
  ampsLow,
  legImbalance,
  switchShift,
  cycleCount,
];

/** News of a node says nothing of the pump, nor the pump of the node. */
export const WATCHES: readonly Watch[] = WATCHES_IN_ORDER.map((watch) => ({
  ...watch,
  evaluate: (scene, memory) => evaluateWithClues(watch, scene, memory),
}));

function evaluateWithClues(watch: Watch, scene: Scene, memory: object): Evaluation {
  const evaluation = watch.evaluate(scene, memory);
  return evaluation.is !== 'active' || watch.scope === 'node'
    ? evaluation
    : reweighByClues(watch.alarm, evaluation, scene);
}
