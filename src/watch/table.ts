/**
 * All watches, in the order in which they are asked. Those whose alarm explains others come first, so that the others find it
 * standing and become its symptoms (src/alarm/symptoms.ts). `site-silent` and `not-watched` are not here: no well can find them
 * (./site-silent.ts, ./not-watched.ts). What they find is weighed again by all that is known beside it (./with-clues.ts).
 */
import { ampsHigh } from './amps-high.ts';
import { ampsLow } from './amps-low.ts';
import { cutOutNotReached } from './cut-out-not-reached.ts';
import { cycleCount } from './cycle-count.ts';
import { dryRun } from './dry-run.ts';
import { failedStart } from './failed-start.ts';
import { freezeRisk } from './freeze-risk.ts';
import { leak } from './leak.ts';
import { legImbalance } from './leg-imbalance.ts';
import { legLost } from './leg-lost.ts';
import { levelLow } from './level-low.ts';
import { longRun } from './long-run.ts';
import { noRun } from './no-run.ts';
import { noStart } from './no-start.ts';
import { noWater } from './no-water.ts';
import { nodeConflict } from './node-conflict.ts';
import { nodeSilent } from './node-silent.ts';
import { overPressure } from './over-pressure.ts';
import { powerLost } from './power-lost.ts';
import type { Finding, WatchMemory, Scene, Watch } from './scene.ts';
import { sensorFault } from './sensor-fault.ts';
import { shortCycling } from './short-cycling.ts';
import { slowFill } from './slow-fill.ts';
import { startsOverLimit } from './starts-over-limit.ts';
import { storeLow } from './store-low.ts';
import { supplyVoltage } from './supply-voltage.ts';
import { switchShift } from './switch-shift.ts';
import { tankAirLost } from './tank-air-lost.ts';
import { tankOvercharged } from './tank-overcharged.ts';
import { reweighByClues } from './with-clues.ts';

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
export const WATCHES: readonly Watch[] = WATCHES_IN_ORDER.map((watch) =>
  watch.scope === 'node'
    ? watch
    : { ...watch, evaluate: (scene, memo) => evaluateWithClues(watch, scene, memo) },
);

function evaluateWithClues(watch: Watch, scene: Scene, memo: WatchMemory): Finding | null | undefined {
  const finding = watch.evaluate(scene, memo);
  return finding && reweighByClues(watch.alarm, finding, scene);
}
