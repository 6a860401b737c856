/**
 * What a card may hold at most: beyond these a value is a slip of the pen (a wrong unit, a lost
 * point) and is refused. They are wide on purpose; what is merely odd is asked about instead
 * (src/core/domain/questions.ts). Common practice where no source stands.
 */
import { rangeTexts as texts } from '../schema/texts.ts';
import type { ValueRange } from '../schema/field.ts';

/**
 * 300 psi: twice the full scale of the usual 150 psi transducer, above the rating of the pipe down
 * any private well. 0.5 psi: under it no switch is made.
 */
export const SWITCH_PRESSURE: ValueRange = {
  min: 3.4,
  max: 2069,
  text: () => texts().switchPressure,
};

/** An air charge may be nothing at all: a plain tank, or one whose air is gone. */
export const AIR_PRESSURE: ValueRange = { min: 0, max: 2069, text: () => texts().airPressure };

/**
 * 1 L to 10,000 gal: the smallest hydraulic-shock bottle, and ten times the largest tank of a
 * battery of them.
 */
export const TANK_VOLUME: ValueRange = { min: 1, max: 37_855, text: () => texts().tankVolume };

/**
 * 20 W (a small solar pump) to 500 hp (372.8 kW), larger than any motor that fits a private well.
 */
export const MOTOR_POWER: ValueRange = { min: 20, max: 372_851, text: () => texts().motorPower };

/** 12 V (solar) to 1,000 V (the end of low voltage, IEC 60038). */
export const MOTOR_VOLTS: ValueRange = { min: 12, max: 1000, text: () => texts().motorVolts };

/** 0.1 A: what a clamp can tell from nothing. 1,000 A: 500 hp at 460 V draws about 590 A. */
export const MOTOR_AMPS: ValueRange = { min: 0.1, max: 1000, text: () => texts().motorAmps };

/** 1 L/h (a reverse-osmosis drain) to 10 gpm (38 L/min), which is no small draw any more. */
export const CONTINUOUS_DRAW: ValueRange = {
  min: 0.00027,
  max: 0.64,
  text: () => texts().continuousDraw,
};

/** 0.01 gpm to 5,000 gpm (315 L/s). */
export const PUMP_FLOW: ValueRange = {
  min: 0.0006,
  max: 315.5,
  text: () => texts().pumpFlow,
};

/** 1,500 m, 4,921 ft: deeper than any pump of this trade is set. Zero for a pump above ground. */
export const SET_DEPTH: ValueRange = { min: 0, max: 1500, text: () => texts().setDepth };

/** From the shore of the Dead Sea, 430 m under the sea, to 6,000 m, above the highest town. */
export const ALTITUDE: ValueRange = {
  min: -450,
  max: 6000,
  text: () => texts().altitude,
};

/** Protectors wait from seconds to some hours; a day is past all of them. */
export const PROTECTOR_RESTART: ValueRange = { min: 1, max: 86_400, text: () => texts().protectorRestart };

/** 1 min to 90 days: an irrigation pump runs through a season. */
export const LONG_RUN: ValueRange = { min: 60, max: 7_776_000, text: () => texts().longRun };

/** 1 ft, less than a pump's own length, to 1,500 m, as SET_DEPTH. */
export const WATER_OVER_PUMP: ValueRange = {
  min: 0.3,
  max: 1500,
  text: () => texts().waterOverPump,
};

/** 100,000 head: past any one well. */
export const STOCK_HEADS: ValueRange = { min: 1, max: 100_000, text: () => texts().stockHeads };

/** Characters of a name for people (site, other load). One line on a phone. */
export const MAX_TEXT_CHARACTERS = 80;

/**
 * One false alarm in a thousand years is as good as no watch; ten a year and nobody looks any more.
 */
export const FALSE_ALARMS: ValueRange = { min: 0.001, max: 10, text: () => texts().falseAlarms };

/** 1 ft for a dug well to 1,500 m, as SET_DEPTH. */
export const HOLE_DEPTH: ValueRange = {
  min: 0.3,
  max: 1500,
  text: () => texts().holeDepth,
};

/**
 * Water stands above ground in a flowing well: 100 ft of it (43 psi at the cap) is past those that
 * are met.
 */
export const STATIC_LEVEL: ValueRange = {
  min: -30.5,
  max: 1500,
  text: () => texts().staticLevel,
};

/** 1/4 in tubing to 12 ft, the rings of a dug well. */
export const PIPE_SIZE: ValueRange = {
  min: 0.006,
  max: 3.66,
  text: () => texts().pipeSize,
};

/** 1 A (a small solar pump's) to 1,200 A, the largest frame of a farm's panel. */
export const BREAKER_AMPS: ValueRange = { min: 1, max: 1200, text: () => texts().breakerAmps };

/** A sentence: where something is, whom to call. */
export const MAX_LINE_CHARACTERS = 200;
/** One terminal and its wire: "T3 (yellow), sleeve blue". */
export const MAX_WIRE_CHARACTERS = 40;
/** Terminals of one box: three lines in, three out, earth, and the control box's own. */
export const MAX_WIRES = 12;
/** A valve each 200 ft (61 m) of the deepest pipe makes 25. */
export const MAX_CHECK_VALVES = 25;
/** Softener, filters, lamp: ten are past any house. */
export const MAX_TREATMENTS = 10;
export const MAX_PHOTOS = 20;

/** 1 ft to 1,500 m, as SET_DEPTH. */
export const PUMP_HEAD: ValueRange = {
  min: 0.3,
  max: 1500,
  text: () => texts().pumpHead,
};
/** A deep 4-inch pump has fewer than a hundred. */
export const STAGES: ValueRange = { min: 1, max: 200, text: () => texts().stages };
/** A start and a stop and every few feet of head between. */
export const MAX_CURVE_POINTS = 20;
/** A small run capacitor to past the largest start capacitor. */
export const CAPACITANCE: ValueRange = { min: 0.5, max: 2000, text: () => texts().capacitance };
/** 1 ft to 3 km: a stock well far from its power. */
export const WIRE_LENGTH: ValueRange = {
  min: 0.3,
  max: 3000,
  text: () => texts().wireLength,
};
/** 22 AWG, thinner than any motor lead, to 500 mm2, about 1,000 kcmil. */
export const WIRE_AREA: ValueRange = {
  min: 0.32,
  max: 510,
  text: () => texts().wireArea,
};
/** As HOLE_DEPTH; nothing where the water did not fall. */
export const DRAWDOWN: ValueRange = { min: 0, max: 1500, text: () => texts().drawdown };
/** 1 min to 90 days: a long aquifer test. */
export const TEST_TIME: ValueRange = { min: 60, max: 7_776_000, text: () => texts().testTime };
/** A trough of 10 L to 10,000 m3, a farm's lined pond. */
export const STORAGE_VOLUME: ValueRange = {
  min: 10,
  max: 1e7,
  text: () => texts().storageVolume,
};
/** From the floor of a tank to the top of a standpipe of 30 m. */
export const STORAGE_LEVEL: ValueRange = { min: 0, max: 30, text: () => texts().storageLevel };
/** 1 ft to 5 km. */
export const DISTANCE: ValueRange = {
  min: 0.3,
  max: 5000,
  text: () => texts().distance,
};
/** 1 m3 to 100 million m3 a year: the pump of 315 L/s gives 10 million. */
export const ALLOWED_VOLUME: ValueRange = {
  min: 1000,
  max: 1e11,
  text: () => texts().allowedVolume,
};
/** 100 h to 10 years. */
export const LAMP_LIFE: ValueRange = { min: 360_000, max: 315_360_000, text: () => texts().lampLife };
