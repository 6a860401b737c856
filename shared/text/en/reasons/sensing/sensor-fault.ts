/** Why `sensor-fault` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const sensorFaultReasons = {} satisfies ReasonTexts;
