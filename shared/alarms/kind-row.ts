/**
 * What the catalogue says of a kind of alarm (./catalogue.ts): everything but how it is evaluated
 * (src/core/alarms/GROUP/KIND.ts) and what is said of it (shared/text/en/alarms/GROUP/KIND.ts).
 */
import type { CONTROL } from '../card/card-fields.ts';
import type { Values } from '../schema/field.ts';
import type { Priority } from '../text/en/alarms/kinds.ts';

export type Control = NonNullable<Values<typeof CONTROL>['control']>;
/** `adapted`: in a form of its own, which the watch's file tells apart. `none`: never asked. */
export type Applicability = 'as-is' | 'adapted' | 'none';
export type Controls = Readonly<Record<Control, Applicability>>;

export interface KindRow<Kind extends string = string> {
  /** The folder of its watch and of its text. */
  group: 'pump' | 'water' | 'electric' | 'sensing';
  /** Where its watch says no other: the contract's table (section 6). */
  priority: Priority;
  /**
   * While it is `now`, a person must act within minutes and not within the day: the motor or the
   * pump is being ruined, or pressure rises without a limit.
   */
  minutesMatter?: true;
  controls: Controls;
  /**
   * Never asked of a pump that panels feed: its current, its flow and its starts follow the sun,
   * and say nothing of the pump.
   */
  needsSteadySupply?: true;
  /** Kinds of which it is a symptom, while they are active. */
  explainedBy: readonly Kind[];
  /** As long as it is `now` it is reported although another explains it. */
  reportedWhileNow?: true;
  /** Reported beside whatever else is active: it is of site, node, weather or a sensor. */
  neverGrouped?: true;
  /**
   * Read from the current alone. All others that a sensor can spoil are read from the pressure,
   * within runs or between them.
   */
  currentOnly?: true;
  /**
   * A day on which it was active teaches the baseline all the same. Most change amps, pressures,
   * runs or counts, and their days teach nothing.
   */
  daysTeach?: true;
  /**
   * Raised after the condition has held for `onS`, cleared after it has been gone for `offS`.
   * Absent: no well can find it.
   */
  delays?: { onS: number; offS: number };
  /**
   * Its share of the false alarms that a well may have by chance, and how many one-way charts of
   * its run length it reads. Absent: its limits come from the card and the standards.
   */
  chance?: { share: number; charts: number };
}
