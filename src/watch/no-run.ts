/**
 * The runs that this well always makes do not come. Only where nothing better can tell: a float or timer that fills a store, or a
 * well without pressure. How long is too long comes from the longest rest it ever had; a house stands empty for a week now and then, stock drinks every day.
 */
import { isFresh, lastMinute, usesPressure } from './facts.ts';
import { sayTime, tidy } from './say.ts';
import type { Finding, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

const H = 3600;
/** Times the longest rest as learnt, and at least so much over it. */
const STOCK = { times: 2, overS: 4 * H };
const STORE = { times: 2, overS: 24 * H };
const HOUSE = { times: 3, overS: 8 * 24 * H };

export const noRun: Watch = {
  alarm: 'no-run',
  each: 'pump',
  on: ['minute'],
  onDelayS: 0,
  offDelayS: 0,
  look,
};

function look(scene: Scene): Finding | null | undefined {
  const { pump } = scene;
  if (pump.run) return null;
  const minute = lastMinute(scene);
  const longest = pump.baseline?.longestRestS;
  const sinceMs = pump.restSinceMs;
  if (!minute || longest === undefined || sinceMs === undefined || !isFresh(scene, sinceMs)) return undefined;
  if ((minute.pumps[pump.index]?.heardS ?? 0) < 30 || (usesPressure(pump) && minute.kpa)) return undefined;
  const stock = scene.well.card.uses.includes('stock');
  const allowed = stock ? STOCK : usesPressure(pump) ? HOUSE : STORE;
  const limitS =
    Math.max(allowed.times * longest, longest + allowed.overS) * (scene.well.expected === undefined ? 1 : 2);
  const restedS = (scene.atMs - sinceMs) / 1000;
  if (restedS <= limitS) return null;
  return {
    sinceMs,
    priority: stock ? 'now' : 'soon',
    why: `The pump has not run for ${sayTime(restedS)}; the longest it rested when all was well is ${sayTime(longest)}.`,
    evidence: { restedS: tidy(restedS, 0), longestRestS: longest, limitS: tidy(limitS, 0) },
    causes: weigh({
      'power-lost': 0.2,
      'breaker-open': 0.2,
      'failing-motor': 0.1,
      'overload-tripping': 0.1,
      'switch-out-of-set': usesPressure(pump) ? 0.05 : 0.15,
      'habit-changed': 0.15,
      'clamp-off': 0.1,
    }),
  };
}
