/**
 * Stands in the place of src/core/alarms/lifecycle/alarms.ts in an engine that is observed
 * (./scaled-engine.ts): whatever the watches are shown is handed to the observer first.
 */
import * as alarms from '../../core/alarms/lifecycle/alarms.ts';
import type { Observer } from './observed.ts';

export { newAlarms, raiseExternally, standing, standingKinds } from '../../core/alarms/lifecycle/alarms.ts';

export const observer: Observer = {};

export const evaluateAll: typeof alarms.evaluateAll = (state, scene, emit) => {
  observer.seen?.({ is: 'scene', scene });
  alarms.evaluateAll(state, scene, emit);
};

export const alarmAct: typeof alarms.alarmAct = (state, act, atMs, emit) => {
  observer.seen?.({ is: 'act', act, atMs });
  alarms.alarmAct(state, act, atMs, emit);
};
