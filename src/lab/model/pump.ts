/**
 * The simulated pump: a head-flow curve that falls with the square of flow, lifting from a water
 * level that sinks while it pumps, and a motor whose current follows flow. Shapes are those of
 * small submersibles (common practice, no source); none of it is shared with what the engine
 * assumes.
 */
export interface PumpParams {
  /** Head at no flow, m. */
  shutOffHeadM: number;
  /** Flow at no head, L/s. */
  runOutLPerS: number;
  /** Water level below the tank tee at rest, m. */
  staticLevelM: number;
  /** The well gives this much flow for each metre its level falls, L/s per m. */
  yieldLPerSPerM: number;
  /** Friction of drop pipe and fittings, m per (L/s)^2. */
  frictionM: number;
  /** Current at no flow and at run-out, A, at nominal volts. */
  idleFlowAmps: number;
  fullFlowAmps: number;
}

export interface PumpState {
  /** Fall of the water level while pumping, m. */
  wellDrawdownM: number;
}

/** The level follows what is pumped with this time constant: bore storage. */
const LEVEL_TIME_CONSTANT_S = 240;
const M_PER_KPA = 1 / 9.80665;

/**
 * Flow against a gauge pressure, L/s; `worn` is the share of head that the impellers have lost.
 * Never negative: the check valve holds.
 */
export function pumpFlow(params: PumpParams, state: PumpState, gaugeKpa: number, worn: number): number {
  const head = params.shutOffHeadM * (1 - worn);
  const runOut = params.runOutLPerS * (1 - worn);
  const static_ = params.staticLevelM + state.wellDrawdownM + gaugeKpa * M_PER_KPA;
  if (head <= static_) return 0;
  // head (1 - (q/runOut)^2) = static + friction q^2
  return Math.sqrt((head - static_) / (head / (runOut * runOut) + params.frictionM));
}

export function followLevel(params: PumpParams, state: PumpState, flowLPerS: number, dtS: number): void {
  const wanted = flowLPerS / params.yieldLPerSPerM;
  state.wellDrawdownM += ((wanted - state.wellDrawdownM) * dtS) / LEVEL_TIME_CONSTANT_S;
}

/** Running current, A. A loaded motor draws more when its voltage falls, an idling one less. */
export function pumpAmps(params: PumpParams, flowLPerS: number, voltRatio: number): number {
  const load = Math.min(1, flowLPerS / params.runOutLPerS);
  const amps =
    params.idleFlowAmps + (params.fullFlowAmps - params.idleFlowAmps) * (1.7 * load - 0.7 * load * load);
  return amps * (1 - 0.6 * (voltRatio - 1));
}
