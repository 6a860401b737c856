/**
 * The tank holds more air than cut-in: it is empty before the switch closes, and for some seconds at the end of each draw nothing comes. The
 * trade wants 2 psi under cut-in (Water Systems Council, "Pressure Tanks", 2007); told from 3 psi over it.
 */
import { speaksForAll } from './company.ts';
import { cutInOf, PSI } from './facts.ts';
import { sayPressure, tidy } from './say.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { airSeen } from './tank-air.ts';
import { weigh } from './weigh.ts';

const OVER_KPA = 3 * PSI;
const DEADBAND_KPA = 1.5 * PSI;

export const tankOvercharged: Watch = {
  alarm: 'tank-overcharged',
  each: 'pump',
  on: ['cycle'],
  onDelayS: 0,
  offDelayS: 86_400,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  if (!speaksForAll(scene)) return undefined;
  const air = airSeen(scene, memo);
  const cutIn = cutInOf(scene);
  if (!air || cutIn === undefined) return undefined;
  const over = air.airKpa - cutIn;
  if (over < OVER_KPA - DEADBAND_KPA) return null;
  if (over < OVER_KPA) return undefined;
  return {
    sinceMs: scene.cycle?.startedMs ?? scene.atMs,
    why: `The tank's air charge reads ${sayPressure(air.airKpa)} from its fills, over the cut-in of ${sayPressure(cutIn)}: it is empty before the pump starts.`,
    evidence: { airKpa: tidy(air.airKpa, 0), cutInKpa: tidy(cutIn, 0), normalKpa: tidy(air.normalKpa, 0) },
    causes: weigh({ 'tank-overcharged': 0.7, 'switch-out-of-set': 0.2, 'transducer-fault': 0.1 }),
  };
}
