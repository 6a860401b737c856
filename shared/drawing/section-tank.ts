/**
 * The pressure tank and what stands beside it at the surface: a sign, not to scale. What is not
 * known stands as a question mark.
 */
import { path, rect, textShape, type Shape } from './shape.ts';
import { texts } from './texts.ts';

export interface TankFacts {
  tankText?: string;
  switchText?: string;
  pump?: 'in-the-well' | 'above-ground';
  pumpText?: string;
}

const TANK = { x: 24, width: 56, height: 78 };
const LINE_PX = 17;

export function tankShapes(
  { tankText, switchText, pump, pumpText }: TankFacts,
  { groundY, wellX }: { groundY: number; wellX: number },
): Shape[] {
  const topY = groundY - TANK.height - 14;
  const middleX = TANK.x + TANK.width / 2;
  const known = tankText !== undefined;
  const lines = [
    texts().tankIs(tankText ?? texts().notKnown),
    texts().switchIs(switchText ?? texts().notKnown),
    ...(pump === 'above-ground'
      ? [texts().pumpAboveGround(pumpText === undefined ? '' : `: ${pumpText}`)]
      : []),
  ];
  return [
    path(`M${middleX} ${groundY - 14}v28H${wellX}v-24`, known ? 'pipe' : 'pipe unknown'),
    rect({ ...TANK, y: topY, round: 24 }, known ? 'tank' : 'tank unknown'),
    known
      ? path(`M${TANK.x} ${topY + 44}q${TANK.width / 2} 12 ${TANK.width} 0`, 'inlet')
      : textShape('?', { x: middleX, y: topY + 46, anchor: 'middle' }, 'question'),
    ...lines.map((line, i) => textShape(line, { x: TANK.x + TANK.width + 20, y: 24 + i * LINE_PX }, 'label')),
  ];
}
