/**
 * One point of a pump's curve as a data sheet has it, "10 gpm at 180 ft": so much flows against so
 * much head. Both carry their unit, as everywhere.
 */
import { PUMP_FLOW, PUMP_HEAD } from '../card/limits.ts';
import { parseQuantity } from './parse-quantity.ts';
import { texts } from './texts.ts';

export interface CurvePoint {
  flowLPerS: number;
  headM: number;
}

const POINT = /^(.+?)\s*(?:@|\bat\b|,)\s*(.+)$/i;

/** The flow may be nothing: the head there is the shut-off head. */
export function parseCurvePoint(text: string): { value: CurvePoint } | { problem: string } {
  const parts = POINT.exec(text.trim());
  const flow = parseQuantity(parts?.[1], 'flow');
  const head = parseQuantity(parts?.[2], 'length');
  if (!('si' in flow) || !('si' in head)) return { problem: texts().mustBeFlowAndHead };
  const fits = flow.si >= 0 && flow.si <= PUMP_FLOW.max && head.si >= 0 && head.si <= PUMP_HEAD.max;
  return fits ? { value: { flowLPerS: flow.si, headM: head.si } } : { problem: texts().mustBeFlowAndHead };
}
