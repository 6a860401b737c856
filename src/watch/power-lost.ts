/**
 * The supply is gone: the node said so with its last gasp, or the measured voltage has. Not guessed from a missing current: that is
 * `no-start`, where the cause is shared with an open breaker.
 */
import { median } from '../baseline/robust.ts';
import { lastMinute, standingSince, standsNot } from './facts.ts';
import { sayVolts, tidy } from './say.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

/**
 * Half of the voltage runs no motor and no contactor: of what the card says, or of what this pump was seen to run at, since a node may measure
 * one line against neutral. Before its first run that is not known, and a third of the card's is less than either. Without a card 120 V
 * is the least that pumps are made for.
 */
const GONE_SHARE = 0.5;
const NEVER_RAN_SHARE = 0.3;
const UNKNOWN_VOLTS = 100;
const LAST_RUNS = 5;

/** Power that comes and goes is one alarm; while it is back it explains nothing (src/alarm/symptoms.ts). */
const OFF_DELAY_S = 3600;

export const powerLost: Watch = {
  alarm: 'power-lost',
  each: 'well',
  on: ['minute'],
  onDelayS: 30,
  offDelayS: OFF_DELAY_S,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  const gone = scene.well.nodes.find((node) => node.is === 'no-power');
  if (gone) {
    return {
      sinceMs: gone.sinceMs,
      why: `The node ${gone.node} said that its supply has failed.`,
      evidence: { node: gone.node },
      causes: weigh({ 'power-lost': 0.5, 'breaker-open': 0.5 }),
    };
  }
  return byVolts(scene, memo);
}

function byVolts(scene: Scene, memo: Memo): Finding | null | undefined {
  const minute = lastMinute(scene);
  if (!minute) return undefined;
  const lines = minute.pumps.flatMap((pump) => pump.volts ?? []);
  if (lines.length === 0) return memo['sinceMs'] === undefined ? null : undefined;
  const nominal = scene.pumps[0]?.card.volts ?? UNKNOWN_VOLTS / GONE_SHARE;
  const flows = minute.pumps.some((pump) => pump.ranS > 0);
  const highest = Math.max(...lines.map((line) => line.high));
  if (flows || highest >= GONE_SHARE * nominal || highest >= leastVolts(scene, nominal))
    return standsNot(memo);
  const sinceMs = standingSince(memo, minute.atMs - 60_000);
  return {
    sinceMs,
    why: `The pump's supply shows ${sayVolts(highest)} where it should have ${sayVolts(nominal)}.`,
    evidence: { volts: tidy(highest, 0), nominalVolts: nominal },
    causes: weigh({ 'power-lost': 0.55, 'breaker-open': 0.45 }),
  };
}

function leastVolts({ pumps }: Scene, nominal: number): number {
  const ranAt = median(
    pumps.flatMap(({ cycles }) => cycles.slice(-LAST_RUNS).flatMap(({ volts }) => volts ?? [])),
  );
  return ranAt === undefined ? NEVER_RAN_SHARE * nominal : GONE_SHARE * Math.min(nominal, ranAt);
}
