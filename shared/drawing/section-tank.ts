/** The pressure tank and what stands beside it at the surface: a sign, not to scale. What is not known stands as a question mark. */
import { path, rect, words, type Shape } from './shape.ts';

export interface TankFacts {
  tankSays?: string;
  switchSays?: string;
  pump?: 'in-the-hole' | 'above-ground';
  pumpSays?: string;
}

const TANK = { x: 24, width: 56, height: 78 };
const LINE_PX = 17;

export function tank(
  { tankSays, switchSays, pump, pumpSays }: TankFacts,
  { groundY, wellX }: { groundY: number; wellX: number },
): Shape[] {
  const topY = groundY - TANK.height - 14;
  const middleX = TANK.x + TANK.width / 2;
  const known = tankSays !== undefined;
  const lines = [
    `Pressure tank: ${tankSays ?? 'not known'}`,
    `Pressure switch: ${switchSays ?? 'not known'}`,
    ...(pump === 'above-ground' ? [`Pump above ground${pumpSays === undefined ? '' : `: ${pumpSays}`}`] : []),
  ];
  return [
    path(`M${middleX} ${groundY - 14}v28H${wellX}v-24`, known ? 'pipe' : 'pipe guessed'),
    rect({ ...TANK, y: topY, round: 24 }, known ? 'tank' : 'tank guessed'),
    known
      ? path(`M${TANK.x} ${topY + 44}q${TANK.width / 2} 12 ${TANK.width} 0`, 'inlet')
      : words('?', { x: middleX, y: topY + 46, anchor: 'middle' }, 'question'),
    ...lines.map((line, i) => words(line, { x: TANK.x + TANK.width + 20, y: 24 + i * LINE_PX }, 'label')),
  ];
}
