/**
 * The text of each kind: an alarm without words does not compile. Made from
 * shared/alarms/catalogue.ts by tests/core/alarms/indexes.test.ts.
 */
import type { AlarmKind } from './kinds.ts';
import type { AlarmText } from './text-shapes.ts';
import { powerLostText } from './electric/power-lost.ts';
import { nodeConflictText } from './sensing/node-conflict.ts';
import { nodeSilentText } from './sensing/node-silent.ts';
import { sensorFaultText } from './sensing/sensor-fault.ts';
import { legLostText } from './electric/leg-lost.ts';
import { failedStartText } from './pump/failed-start.ts';
import { overPressureText } from './water/over-pressure.ts';
import { dryRunText } from './pump/dry-run.ts';
import { noStartText } from './pump/no-start.ts';
import { longRunText } from './pump/long-run.ts';
import { noWaterText } from './water/no-water.ts';
import { noRunText } from './pump/no-run.ts';
import { storeLowText } from './water/store-low.ts';
import { supplyVoltageText } from './electric/supply-voltage.ts';
import { levelLowText } from './water/level-low.ts';
import { freezeRiskText } from './water/freeze-risk.ts';
import { tankOverchargedText } from './water/tank-overcharged.ts';
import { tankAirLostText } from './water/tank-air-lost.ts';
import { leakText } from './water/leak.ts';
import { shortCyclingText } from './water/short-cycling.ts';
import { startsOverLimitText } from './water/starts-over-limit.ts';
import { cutOutNotReachedText } from './pump/cut-out-not-reached.ts';
import { slowFillText } from './pump/slow-fill.ts';
import { ampsHighText } from './electric/amps-high.ts';
import { ampsLowText } from './electric/amps-low.ts';
import { legImbalanceText } from './electric/leg-imbalance.ts';
import { switchShiftText } from './water/switch-shift.ts';
import { cycleCountText } from './water/cycle-count.ts';
import { siteSilentText } from './sensing/site-silent.ts';
import { notWatchedText } from './sensing/not-watched.ts';

export const TEXT_OF = {
  'power-lost': powerLostText,
  'node-conflict': nodeConflictText,
  'node-silent': nodeSilentText,
  'sensor-fault': sensorFaultText,
  'leg-lost': legLostText,
  'failed-start': failedStartText,
  'over-pressure': overPressureText,
  'dry-run': dryRunText,
  'no-start': noStartText,
  'long-run': longRunText,
  'no-water': noWaterText,
  'no-run': noRunText,
  'store-low': storeLowText,
  'supply-voltage': supplyVoltageText,
  'level-low': levelLowText,
  'freeze-risk': freezeRiskText,
  'tank-overcharged': tankOverchargedText,
  'tank-air-lost': tankAirLostText,
  leak: leakText,
  'short-cycling': shortCyclingText,
  'starts-over-limit': startsOverLimitText,
  'cut-out-not-reached': cutOutNotReachedText,
  'slow-fill': slowFillText,
  'amps-high': ampsHighText,
  'amps-low': ampsLowText,
  'leg-imbalance': legImbalanceText,
  'switch-shift': switchShiftText,
  'cycle-count': cycleCountText,
  'site-silent': siteSilentText,
  'not-watched': notWatchedText,
} satisfies Record<AlarmKind, AlarmText>;
