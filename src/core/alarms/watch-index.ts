/**
 * The watch of each kind, in the order of the catalogue. Made from shared/alarms/catalogue.ts by
 * tests/core/alarms/indexes.test.ts.
 */
import type { WatchedKind } from '../../../shared/alarms/catalogue.ts';
import type { Watch } from './scene.ts';
import { powerLost } from './electric/power-lost.ts';
import { nodeConflict } from './sensing/node-conflict.ts';
import { nodeSilent } from './sensing/node-silent.ts';
import { sensorFault } from './sensing/sensor-fault.ts';
import { legLost } from './electric/leg-lost.ts';
import { failedStart } from './pump/failed-start.ts';
import { overPressure } from './water/over-pressure.ts';
import { dryRun } from './pump/dry-run.ts';
import { noStart } from './pump/no-start.ts';
import { longRun } from './pump/long-run.ts';
import { noWater } from './water/no-water.ts';
import { noRun } from './pump/no-run.ts';
import { storeLow } from './water/store-low.ts';
import { supplyVoltage } from './electric/supply-voltage.ts';
import { levelLow } from './water/level-low.ts';
import { freezeRisk } from './water/freeze-risk.ts';
import { tankOvercharged } from './water/tank-overcharged.ts';
import { tankAirLost } from './water/tank-air-lost.ts';
import { leak } from './water/leak.ts';
import { shortCycling } from './water/short-cycling.ts';
import { startsOverLimit } from './water/starts-over-limit.ts';
import { cutOutNotReached } from './pump/cut-out-not-reached.ts';
import { slowFill } from './pump/slow-fill.ts';
import { ampsHigh } from './electric/amps-high.ts';
import { ampsLow } from './electric/amps-low.ts';
import { legImbalance } from './electric/leg-imbalance.ts';
import { switchShift } from './water/switch-shift.ts';
import { cycleCount } from './water/cycle-count.ts';

export const WATCH_OF: Record<WatchedKind, Watch> = {
  'power-lost': powerLost,
  'node-conflict': nodeConflict,
  'node-silent': nodeSilent,
  'sensor-fault': sensorFault,
  'leg-lost': legLost,
  'failed-start': failedStart,
  'over-pressure': overPressure,
  'dry-run': dryRun,
  'no-start': noStart,
  'long-run': longRun,
  'no-water': noWater,
  'no-run': noRun,
  'store-low': storeLow,
  'supply-voltage': supplyVoltage,
  'level-low': levelLow,
  'freeze-risk': freezeRisk,
  'tank-overcharged': tankOvercharged,
  'tank-air-lost': tankAirLost,
  leak: leak,
  'short-cycling': shortCycling,
  'starts-over-limit': startsOverLimit,
  'cut-out-not-reached': cutOutNotReached,
  'slow-fill': slowFill,
  'amps-high': ampsHigh,
  'amps-low': ampsLow,
  'leg-imbalance': legImbalance,
  'switch-shift': switchShift,
  'cycle-count': cycleCount,
};
