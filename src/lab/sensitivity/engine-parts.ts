/** What is asked of a whole engine whose thresholds were scaled (./scaled-engine.ts). */
export { playCase } from '../score/play.ts';
export { observer } from './observed-alarms.ts';
/** A person's test, which no watch asks; its thresholds are listed with the others. */
export { airChargeFromDraw } from '../../core/hydraulics/measured-draw.ts';
