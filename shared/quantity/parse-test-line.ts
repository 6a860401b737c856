/**
 * One line of a timed drawdown as it is written at the well, "10 min, 85 ft" or "10 min, 85 ft, 8
 * gpm": how long after the start, how deep the water stands, and the flow where it was read.
 */
import { parseQuantity } from './parse-quantity.ts';
import { texts } from './texts.ts';

export interface TestPoint {
  timeS: number;
  levelM: number;
  flowLPerS?: number;
}

/** 90 days; and as deep as any hole. */
const MAX_TIME_S = 7_776_000;
const LEVEL_M = { min: -30.5, max: 1500 };

export function parseTestLine(text: string): { value: TestPoint } | { problem: string } {
  const [time, level, flow, ...more] = text.split(/,\s+|;/).map((part) => part.trim());
  const timeRead = parseQuantity(time, 'duration');
  const levelRead = parseQuantity(level, 'length');
  const flowRead = flow === undefined ? undefined : parseQuantity(flow, 'flow');
  if (!('si' in timeRead) || !('si' in levelRead) || more.length > 0)
    return { problem: texts().mustBeTestLine };
  if (flowRead && !('si' in flowRead)) return { problem: texts().mustBeTestLine };
  const fits =
    timeRead.si >= 0 &&
    timeRead.si <= MAX_TIME_S &&
    levelRead.si >= LEVEL_M.min &&
    levelRead.si <= LEVEL_M.max &&
    (flowRead === undefined || flowRead.si >= 0);
  if (!fits) return { problem: texts().mustBeTestLine };
  return {
    value: { timeS: timeRead.si, levelM: levelRead.si, ...(flowRead && { flowLPerS: flowRead.si }) },
  };
}
