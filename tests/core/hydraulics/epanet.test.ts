/**
 * Real demand through an independent hydraulic solver, read back from pressure alone. The demand is
 * one week of a flat in Naples at 1 s: A. Di Mauro, S. Venticinque, G. F. Santonastaso, A. Di
 * Nardo, "WEUSEDTO - Water End USE Dataset and TOols" (CC BY 4.0), with the hours without flow cut
 * to 15 min. Solver: EPANET 2.2 by npm epanet-js.
 */
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { drive, litreErrors, type Driven } from './drive.ts';
import { runEpanet } from './epanet-well.ts';
import { MODEL_BEGINS_MS } from './model.ts';

const DEMAND = fileURLToPath(new URL('../../../../shared/data/weusedto/week_flow_ml_s.csv', import.meta.url));
const LONGEST_PAUSE_S = 900;
/**
 * The card says what a gauge showed on air of 20 C; on water of 11 C the same air stands lower, and
 * that is EPANET's tank.
 */
const CARD_PRECHARGE_KPA = 262;
const COOLED = (273.15 + 11) / (273.15 + 20);
const WELL = {
  volumeL: 76,
  prechargeKpa: (CARD_PRECHARGE_KPA + 101.325) * COOLED - 101.325,
  cutInKpa: 276,
  cutOutKpa: 414,
};
/** EPANET's air has no warmth; until that is learnt, a usual warmth is reckoned with. */
const LEARNED_FROM = 14;

function demandLPerS(): Float64Array {
  const out: number[] = Array.from({ length: 600 }, () => 0);
  let last = -1;
  for (const line of readFileSync(DEMAND, 'utf8').trim().split('\n').slice(1)) {
    const [s, mlPerS] = line.split(',').map(Number) as [number, number];
    const pause = last < 0 ? 0 : Math.min(s - last - 1, LONGEST_PAUSE_S);
    for (let i = 0; i < pause; i++) out.push(0);
    out.push(mlPerS / 1000);
    last = s;
  }
  return Float64Array.from(out);
}

describe.skipIf(!existsSync(DEMAND))(
  'water read back from EPANET (skipped where ../shared/data is not there)',
  () => {
    const tank = { kind: 'captive-air' as const, volumeL: WELL.volumeL, prechargeKpa: CARD_PRECHARGE_KPA };
    let model: Awaited<ReturnType<typeof runEpanet>>;
    let driven: Driven;
    beforeAll(async () => {
      model = await runEpanet(WELL, demandLPerS(), 1);
      driven = drive(model, { tank });
    });

    test('each run within 3 %', () => {
      const errors = litreErrors(model, driven, LEARNED_FROM);
      expect(errors.length).toBeGreaterThan(20);
      for (const error of errors) expect(Math.abs(error)).toBeLessThan(0.03);
    });

    test('litres within 2 % of drawn, from one full tank to the next', () => {
      const runs = model.runs.slice(LEARNED_FROM);
      const from = (model.runs[LEARNED_FROM - 1]!.stoppedMs - MODEL_BEGINS_MS) / 1000;
      const to = (runs.at(-1)!.stoppedMs - MODEL_BEGINS_MS) / 1000;
      const drawn = model.drawnL.slice(from, to).reduce((sum, litres) => sum + litres, 0);
      const recovered = driven.runs.slice(LEARNED_FROM).reduce((sum, run) => sum + run.deliveredL!, 0);
      expect(drawn).toBeGreaterThan(500);
      expect(Math.abs(recovered / drawn - 1)).toBeLessThan(0.02);
    });
  },
);
