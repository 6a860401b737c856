/**
 * What the watches of one well were shown, in its order: cycles, minutes and days as scenes, and
 * what people did between. Asked again over it, watches say what they said, without a reading being
 * read again. What the well had learnt is in the scenes: an alarm that another limit raises or
 * misses does not change what later days teach.
 */
import type { Scene, WellScene } from '../../core/alarms/scene.ts';
import type { Act } from '../../core/domain/act.ts';

export type Observed = { is: 'scene'; scene: Scene } | { is: 'act'; act: Act; atMs: number };

/** Where observations go while a well is played; undefined while nobody wants them. */
export interface Observer {
  seen?: ((observed: Observed) => void) | undefined;
}

/**
 * Copies what the engine goes on to change. What has not changed since the scene before is the same
 * object, so that a month of minutes fits into memory.
 */
export function sceneCopier(): (observed: Observed) => Observed {
  const lists = new Map<string, readonly unknown[]>();
  const values = new Map<string, { text: string; value: unknown }>();
  const list = <T>(key: string, now: readonly T[]): T[] => {
    const last = lists.get(key);
    const same = last?.length === now.length && last[0] === now[0] && last.at(-1) === now.at(-1);
    if (!same) lists.set(key, [...now]);
    return lists.get(key) as T[];
  };
  const value = <T>(key: string, now: T): T => {
    const text = JSON.stringify(now);
    const last = values.get(key);
    if (last?.text !== text) values.set(key, { text, value: structuredClone(now) });
    return values.get(key)!.value as T;
  };
  return (observed) => {
    if (observed.is === 'act') return observed;
    const { scene } = observed;
    const pumps = scene.pumps.map((pump) => ({
      ...pump,
      cycles: list(`cycles ${pump.index}`, pump.cycles),
      habit: value(`habit ${pump.index}`, pump.habit),
    }));
    const well: WellScene = {
      ...scene.well,
      minutes: list(`minutes ${scene.pump.hasOwnPressure ? scene.pump.index : ''}`, scene.well.minutes),
      days: list('days', scene.well.days),
      water: value('water', scene.well.water),
      channels: scene.well.channels.map((channel) => ({ ...channel })),
    };
    return { is: 'scene', scene: { ...scene, well, pumps, pump: pumps[scene.pump.index]! } };
  };
}
