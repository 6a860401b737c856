/**
 * What is asked of watches whose thresholds were scaled: bundled by itself (./scaled-engine.ts), it
 * is small, and hundreds of it are made.
 */
export { entryKey } from '../../core/alarms/lifecycle/alarm-entry.ts';
export { evaluateAll, newAlarms, alarmAct } from '../../core/alarms/lifecycle/alarms.ts';
export { WATCHES } from '../../core/alarms/watches.ts';
export { CATALOGUE } from '../../../shared/alarms/catalogue.ts';
