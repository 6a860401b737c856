/**
 * The supply is gone: the node said so with its last gasp, or the measured voltage has. Not guessed
 * from a missing current: that is `no-start`, where the cause is shared with an open breaker.
 */
import { MINUTE_MS } from '../../../../shared/units/duration.ts';
import { median } from '../../baseline/robust.ts';
import { CLEAR, cannotTell, type Evaluation } from '../evaluation.ts';
import { lastMinute, activeSince, forgetSince, type SinceMemory } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * Half of the voltage runs no motor and no contactor: of what the card says, or of what this pump
 * was seen to run at, since a node may measure one line against neutral. Before its first run that
 * is not known, and a third of the card's is less than either. Without a card 120 V is the least
 * that pumps are made for.
 */
const GONE_RATIO = 0.5;
const NEVER_RAN_RATIO = 0.3;
const UNKNOWN_VOLTS = 100;
const LAST_RUNS = 5;

export const powerLost: Watch<SinceMemory> = {
  alarm: 'power-lost',
  scope: 'well',
  triggers: ['minute'],
  initialMemory: () => ({}),
  evaluate,
};

function evaluate(scene: Scene, memory: SinceMemory): Evaluation {
  const gone = scene.well.nodes.find((node) => node.is === 'no-power');
  if (gone) {
    return {
      is: 'active',
      sinceMs: gone.sinceMs,
      reason: 'node-reports-power-lost',
      figures: { node: gone.node },
      evidence: { node: gone.node },
      causes: weighCauses({ 'power-lost': 0.5, 'breaker-open': 0.5 }),
    };
  }
  return evaluateVolts(scene, memory);
}

function evaluateVolts(scene: Scene, memory: SinceMemory): Evaluation {
  const minute = lastMinute(scene);
  if (!minute) return cannotTell('too-few-readings');
  // The voltage of panels is gone each evening.
  const steady = scene.pumps.filter(({ card }) => card.drive !== 'solar');
  const lines = steady.flatMap(({ index }) => minute.pumps[index]?.volts ?? []);
  if (lines.length === 0) return memory.sinceMs === undefined ? CLEAR : cannotTell('needs-voltage');
  const nominal = scene.pumps[0]?.card.volts ?? UNKNOWN_VOLTS / GONE_RATIO;
  const flows = minute.pumps.some((pump) => pump.ranS > 0);
  const highest = Math.max(...lines.map((line) => line.high));
  if (flows || highest >= GONE_RATIO * nominal || highest >= minVolts(scene, nominal))
    return forgetSince(memory);
  return {
    is: 'active',
    sinceMs: activeSince(memory, minute.atMs - MINUTE_MS),
    reason: 'voltage-gone',
    figures: { supplyV: highest, ratedV: nominal },
    evidence: { volts: roundTo(highest, 0), nominalVolts: nominal },
    causes: weighCauses({ 'power-lost': 0.55, 'breaker-open': 0.45 }),
  };
}

function minVolts({ pumps }: Scene, nominal: number): number {
  const ranAt = median(
    pumps.flatMap(({ cycles }) => cycles.slice(-LAST_RUNS).flatMap(({ volts }) => volts ?? [])),
  );
  return ranAt === undefined ? NEVER_RAN_RATIO * nominal : GONE_RATIO * Math.min(nominal, ranAt);
}
