/**
 * The first hour: do clamp, transducer, switch, tank and card agree? Each check has what the card
 * says, what was measured, and one of three states; nothing is judged before a handful of runs.
 * What is impossible, and not only different, is told once as `sensor-fault`
 * (../sensing/card-fault.ts). A pure function of the scene, so that the page, the alarm and the
 * tests ask the same.
 */
import type { Dimension } from '../../../../shared/quantity/units.ts';
import type { CheckKind } from '../../../../shared/text/en/checks/checks.ts';
import type { CardContradiction } from '../../../../shared/text/en/alarms/sensing/card-contradictions.ts';
import type { Active } from '../evaluation.ts';
import {
  checkCurrentAtRest,
  checkClampPlace,
  checkLegs,
  checkRunningAmps,
  checkVolts,
} from './check-motor.ts';
import { checkCutIn, checkCutOut, checkPressureMoves, checkPressureUnit } from './check-pressure.ts';
import { checkPrecharge, checkTankFill } from './check-tank.ts';
import type { Scene } from '../scene.ts';

/** One figure in SI, for a page to print in its reader's unit. */
export interface CheckFigure {
  value: number;
  dimension: Dimension;
}

export interface Check {
  what: CheckKind;
  pump?: string;
  state: 'agrees' | 'differs' | 'not-yet';
  /** What the card says, and what was measured; as many figures as belong together. */
  card?: CheckFigure[];
  measured?: CheckFigure[];
  /** Where both cannot be true: what `sensor-fault` says of it. */
  impossible?: CardContradiction & Pick<Active, 'evidence' | 'causes'>;
}

/**
 * All checks of the scene's pump; those of the whole well come with the first pump. Checks that
 * make no sense of it are left out.
 */
export function runFirstChecks(scene: Scene): Check[] {
  const pump = scene.pump.card.id;
  const ofPump = [
    checkCurrentAtRest,
    checkRunningAmps,
    checkClampPlace,
    checkLegs,
    checkVolts,
    checkPressureUnit,
    checkPressureMoves,
    checkCutIn,
    checkCutOut,
    checkPrecharge,
    checkTankFill,
  ].flatMap((check) => check(scene) ?? []);
  const ofWell = scene.pump.index === 0 ? [checkTimeZone(scene)] : [];
  return [...ofPump.map((check) => ({ ...check, pump })), ...ofWell];
}

/**
 * A card without a zone is one of UTC: right for few wells, and never wrong enough to alarm anyone.
 */
function checkTimeZone({ well }: Scene): Check {
  return { what: 'time-zone', state: well.card.timeZone === 'UTC' ? 'not-yet' : 'agrees' };
}
