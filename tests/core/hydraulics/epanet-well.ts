/**
 * A well in EPANET (US EPA's network solver, by the npm package epanet-js), as a reference that
 * shares nothing with ours: reservoir, pump with a head curve, tee, and a pressure tank as a tank
 * whose volume curve is Boyle's. It knows no warmth of the air and no switch: the switch is thrown
 * here, each second. Traps: a closed link leaks a little (counted here), a tank at its lowest level
 * never recovers (the curve goes down far enough).
 */
import { Project, Workspace } from 'epanet-js';
import type { Model, ModelRun } from './model.ts';
import { MODEL_BEGINS_MS } from './model.ts';

export interface EpanetWell {
  volumeL: number;
  /** Gauge, of the air as it lies in the tank. */
  prechargeKpa: number;
  cutInKpa: number;
  cutOutKpa: number;
}

/**
 * EPANET's toolkit codes (its manual, 'Enumerated types'); the package's own types leave them out.
 */
const BASE_DEMAND = 1;
const HEAD = 10;
const FLOW = 8;
const STATUS = 11;
const NO_SAVE = 0;
/** Standard gravity: head in metres of water to kPa. */
const KPA_PER_M = 9.80665;
const ATMOSPHERE_KPA = 101.325;

function input(well: EpanetWell, seconds: number): string {
  const charge = well.volumeL * (well.prechargeKpa + ATMOSPHERE_KPA);
  const curve: string[] = [];
  for (let kpa = well.prechargeKpa; kpa <= well.cutOutKpa + 60; kpa += 0.5) {
    curve.push(`BOYLE ${kpa / KPA_PER_M} ${(well.volumeL - charge / (kpa + ATMOSPHERE_KPA)) / 1000}`);
  }
  const level = (kpa: number): number => kpa / KPA_PER_M;
  return `
[JUNCTIONS]
TEE 0 0
[RESERVOIRS]
WELL -25
[TANKS]
TANK 0 ${level(well.cutOutKpa - 20)} ${level(well.prechargeKpa)} ${level(well.cutOutKpa + 59)} 1 0 BOYLE
[PIPES]
NIPPLE TEE TANK 1 60 130 0 Open
[PUMPS]
PUMP WELL TEE HEAD LIFT
[CURVES]
LIFT 0 98
LIFT 0.6 62
LIFT 1.0 10
${curve.join('\n')}
[TIMES]
Duration ${seconds} SEC
Hydraulic Timestep 1 SEC
Pattern Timestep 1 SEC
Report Timestep 1 SEC
[OPTIONS]
Units LPS
Headloss H-W
Accuracy 0.0001
Trials 100
[END]
`;
}

/** Lets a demand (L/s, second by second) run through; `everyS`: how often pressure is read. */
export async function runEpanet(
  well: EpanetWell,
  demandLPerS: Float64Array,
  everyS: number,
): Promise<Model & { drawnL: number[] }> {
  const workspace = new Workspace();
  await workspace.loadModule();
  const project = new Project(workspace);
  workspace.writeFile('well.inp', input(well, demandLPerS.length));
  project.open('well.inp', 'well.rpt', 'well.bin');
  const tee = project.getNodeIndex('TEE');
  const tank = project.getNodeIndex('TANK');
  const pump = project.getLinkIndex('PUMP');
  const out = {
    timeMs: [] as number[],
    kpa: [] as number[],
    runs: [] as ModelRun[],
    usedL: [] as number[],
    drawnL: [] as number[],
  };
  let on = false;
  let run: ModelRun | undefined;
  project.openH();
  project.initH(NO_SAVE);
  for (let s = 0; s < demandLPerS.length; s++) {
    project.setNodeValue(tee, BASE_DEMAND, demandLPerS[s]!);
    project.setLinkValue(pump, STATUS, on ? 1 : 0);
    project.runH();
    const kpa = project.getNodeValue(tank, HEAD) * KPA_PER_M;
    const lifted = project.getLinkValue(pump, FLOW);
    const atMs = MODEL_BEGINS_MS + s * 1000;
    if (on && !run) run = { startedMs: atMs, stoppedMs: 0, deliveredL: 0 };
    if (!on && run) {
      out.runs.push({ ...run, stoppedMs: atMs });
      run = undefined;
    }
    if (run) run.deliveredL += lifted;
    // What a closed link lets by is neither lifted nor drawn: it is taken from the draw.
    out.drawnL.push(demandLPerS[s]! - (on ? 0 : lifted));
    if (s % everyS === 0) {
      out.timeMs.push(atMs);
      out.kpa.push(Math.round(kpa * 10) / 10);
    }
    if (kpa <= well.cutInKpa) on = true;
    else if (kpa >= well.cutOutKpa) on = false;
    if (project.nextH() <= 0) break;
  }
  project.closeH();
  project.close();
  return out;
}
