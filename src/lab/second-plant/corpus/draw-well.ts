/**
 * A whole well by a seed and a few wishes: what is wished is held to, all else is drawn. The head
 * that a pump needs decides how deep its well is, as a driller would have chosen the pump.
 */
import { kpaFromPsi } from '../../../../shared/units/pressure.ts';
import { lFromGal } from '../../../../shared/units/water.ts';
import type { NodePlan } from '../../score/case.ts';
import { headOfKpa } from '../pipe.ts';
import type { PumpPlan, SecondPlan } from '../plan.ts';
import { cardOf, type CardKnowledge } from './card.ts';
import {
  drawControl,
  prechargePsi,
  RELIEF_OVER_PSI,
  SWITCHES,
  type ControlKind,
  type SwitchPsi,
} from './control-kinds.ts';
import { dice, type Dice } from './draw.ts';
import { drawPump } from './draw-pump.ts';
import { drawNode } from './draw-node.ts';
import { drawPeople, type UseKind } from './draw-people.ts';

export interface WellWish {
  control?: ControlKind;
  use?: UseKind;
  hp?: readonly number[];
  phase?: 1 | 3;
  pumps?: 'one' | 'lead-lag' | 'alternate';
  /** A well that gives little, so that the level falls far. */
  lowYield?: boolean;
  /** Over the usual size. */
  tankRatio?: number;
  plainTank?: boolean;
  lowCutOff?: boolean;
  aboveGround?: boolean;
  knowledge?: readonly CardKnowledge[];
  node?: Partial<NodePlan>;
  plan?: Partial<SecondPlan>;
  card?: Record<string, unknown>;
}

/** A case's well before anything is wrong with it. */
export interface DrawnWell {
  plan: SecondPlan;
  card: Record<string, unknown>;
  node: NodePlan;
}

const TANKS_GAL = [14, 20, 32, 44, 62, 86, 119];
const USUAL_KNOWLEDGE: readonly CardKnowledge[] = ['all', 'all', 'all', 'no-tank', 'no-switch'];
/**
 * The atmosphere lifts water by no more than about 7 m in practice (common practice, no source).
 */
const DEEPEST_SUCTION_M = 7;
const OFFSETS_H = [-7, -5, 0, 2, 10] as const;

export function drawWell(seed: number, wish: WellWish = {}): DrawnWell {
  const draw = dice(seed);
  const name = `well-${seed}`;
  const kind = wish.control ?? 'pressure-switch';
  const hp = draw.oneOf(wish.hp ?? [0.5, 0.75, 1, 1, 1.5]);
  const pump = drawPump({ hp, phase: wish.phase ?? 1, ...(wish.aboveGround && { aboveGround: true }) }, draw);
  const points = draw.oneOf(SWITCHES.filter(([, cutOut]) => reaches(pump, cutOut)));
  const ground = drawGround(pump, points, wish, draw);
  const { node, instruments } = drawNode(wish.node ?? {}, kind, draw);
  const altitudeM = Math.round(draw.between(20, 1800));
  const tankGal = chooseTank(pump, points, wish, draw);
  const control = drawControl(kind, { points, lowCutOff: wish.lowCutOff === true }, draw);
  const hasTank = kind !== 'float' && kind !== 'timer';
  const people = drawPeople(wish.use ?? 'house', pump, draw);
  const airPsi = wish.plainTank === true ? undefined : prechargePsi(kind, points);
  const plan: SecondPlan = {
    plant: 'second',
    name,
    seed,
    utcOffsetH: draw.oneOf(OFFSETS_H),
    altitudeM,
    pumps: { how: wish.pumps ?? 'one', pumps: wish.pumps ? [ground.pump, ground.pump] : [ground.pump] },
    supply: {
      ratio: draw.between(0.96, 1.06),
      eveningDip: draw.between(0, 0.025),
      wander: draw.between(0.001, 0.006),
    },
    aquifer: ground.aquifer,
    ...(hasTank && {
      tank: {
        volumeL: lFromGal(tankGal) * draw.between(0.97, 1.02),
        prechargeKpa: airPsi === undefined ? 0 : kpaFromPsi(airPsi) + draw.between(-6, 2),
        polytropic: draw.between(1, 1.4),
      },
      reliefKpa: kpaFromPsi(points[1] + RELIEF_OVER_PSI),
    }),
    ...(people.waterHeater && hasTank && { waterHeater: true }),
    control,
    habits: people.habits,
    climate: {
      meanC: draw.between(7, 15),
      seasonC: draw.between(8, 13),
      dayC: draw.between(3, 7),
      heatedToC: draw.between(6, 10),
    },
    ...instruments,
    ...wish.plan,
  };
  const known = draw.oneOf(wish.knowledge ?? USUAL_KNOWLEDGE);
  const precharge = airPsi === undefined ? {} : { prechargePsi: airPsi };
  const card = cardOf(plan, { hp, points, tankGal, known, kind, people, ...precharge });
  return { plan, card: { ...card, ...wish.card }, node };
}

/** At no flow the pump makes a quarter more than the cut-out asks for. */
function reaches(pump: PumpPlan, cutOutPsi: number): boolean {
  return pump.bestHeadM * pump.shutOffRatio > 1.3 * headOfKpa(kpaFromPsi(cutOutPsi)) + 8 || cutOutPsi === 40;
}

function drawGround(
  pump: PumpPlan,
  [cutIn, cutOut]: SwitchPsi,
  wish: WellWish,
  draw: Dice,
): Pick<SecondPlan, 'aquifer'> & { pump: PumpPlan } {
  const isStore = wish.control === 'float' || wish.control === 'timer';
  const midM = headOfKpa(kpaFromPsi(isStore ? 15 : (cutIn + cutOut) / 2));
  const topM = headOfKpa(kpaFromPsi(isStore ? 20 : cutOut));
  const shutOffM = pump.bestHeadM * pump.shutOffRatio;
  const wantedM = pump.bestHeadM * draw.between(0.8, 1.02) - midM;
  const aboveGround = wish.aboveGround === true;
  const pumpingM = aboveGround
    ? draw.between(3, DEEPEST_SUCTION_M)
    : Math.max(5, Math.min(wantedM, 0.86 * shutOffM - topM));
  const fallM =
    wish.lowYield === true ? draw.between(0.5, 0.8) * pumpingM : draw.between(0.05, 0.3) * pumpingM;
  const staticLevelM = Math.max(1, pumpingM - fallM);
  // So much water stands over the pump while it runs for long.
  const overM = wish.lowYield === true ? draw.between(3, 8) : draw.between(8, 25);
  const intakeM = staticLevelM + 1.3 * fallM + overM;
  const perM = pump.bestLPerS / fallM;
  return {
    pump: {
      ...(aboveGround ? jetPump(pump, (pumpingM + midM) / 0.9) : pump),
      dropPipe: { ...pump.dropPipe, lengthM: aboveGround ? pumpingM + 10 : intakeM + draw.between(3, 60) },
    },
    aquifer: {
      staticLevelM,
      intakeM,
      casingLPerM: draw.oneOf([13, 18, 18, 31]),
      nearLPerM: draw.between(60, 600),
      screenLPerSPerM: perM * draw.between(1.3, 2),
      aquiferLPerSPerM: perM * draw.between(2, 4),
    },
  };
}

/** A jet pump of the same motor wastes most of it: it makes less head for the same power. */
function jetPump(pump: PumpPlan, bestHeadM: number): PumpPlan {
  return { ...pump, bestHeadM, efficiency: (pump.efficiency * bestHeadM) / pump.bestHeadM };
}

/**
 * A tank that lets the pump run for a minute or two; half of the owners bought the next smaller.
 */
function chooseTank(pump: PumpPlan, [cutIn, cutOut]: SwitchPsi, wish: WellWish, draw: Dice): number {
  if (wish.control === 'variable-speed') return draw.oneOf([2, 4.5, 14]);
  const ratio = (cutOut - cutIn) / (cutOut + 14.7);
  const wantedL = (pump.bestLPerS * draw.between(50, 130) * (wish.tankRatio ?? 1)) / ratio;
  // Who needs more than the largest has several of it (common practice, no source).
  const largest = TANKS_GAL.at(-1)!;
  const gal = TANKS_GAL.find((one) => lFromGal(one) >= wantedL);
  return gal ?? largest * Math.ceil(wantedL / lFromGal(largest));
}
