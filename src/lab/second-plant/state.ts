/** The second plant at a moment: plain data that ./play.ts steps. */
import type { Random } from '../model/random.ts';
import type { PlantSample } from '../plant/params.ts';
import type { AquiferState } from './aquifer.ts';
import type { Demand } from './demand.ts';
import type { Overload } from './motor.ts';
import type { Condition, PumpPlan, SecondPlan } from './plan.ts';
import type { Recorder } from './record.ts';
import type { Ring } from './ring.ts';
import type { SupplyState } from './supply.ts';
import type { TankState } from './tank.ts';

export interface Unit {
  plan: PumpPlan;
  /** Current flows, or tries to. */
  on: boolean;
  onS: number;
  /** Of this start: how long it takes, or forever where the motor does not come up. */
  startS: number;
  speed: number;
  flowLPerS: number;
  amps: number;
  overload: Overload;
  /** Of a protector: how long the pump has run light, and when it may try again. */
  lightS: number;
  waitsUntilMs: number;
  /** By line: of the open window in A s, and the mean of the last one. */
  windowAs: number[];
  meanA: number[];
}

export interface SwitchState {
  closed: boolean;
  sensedKpa: number;
  cutInKpa: number;
  cutOutKpa: number;
  /** Opened by its low-pressure cut-off: a person has to set it again. */
  lockedOut: boolean;
  chatterLeft: number;
}

export interface Second {
  plan: SecondPlan;
  random: Random;
  /** Of the instruments: how often they are read changes nothing in the well. */
  noise: Random;
  tMs: number;
  condition: Condition;
  supply: SupplyState;
  supplyRatio: number;
  outdoorC: number;
  houseC: number;
  aquifer: AquiferState;
  levelM: number;
  tank?: TankState;
  /** Behind a float or a timer: depth of the store. */
  storeM: number;
  units: Unit[];
  switches: SwitchState[];
  /** Which pump's turn it is, where they alternate. */
  turn: number;
  /** Of a drive: speed it asks for. */
  driveSpeed: number;
  driveSum: number;
  demand: Demand;
  ring: Ring;
  /** At the tee. */
  kpa: number;
  inLPerS: number;
  drawnLPerS: number;
  /** Into the tank or store, less what leaves it. */
  movingLPerS: number;
  /** What the water heater's water has still to swell by. */
  swellL: number;
  stuckKpa?: number;
  recorder: Recorder;
  sample: PlantSample & { amps: number[][]; volts: number[] };
}
