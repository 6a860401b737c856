/**
 * What published tables say of a motor by its size: full-load amps, locked-rotor code letters,
 * starts a day. They check a card and bound a guess; a running motor is compared with its own
 * baseline and nameplate, never with these alone: the tables size conductors and breakers (NEC
 * 430.6(A)(1)), the plate sizes overloads (430.6(A)(2), both from memory), and submersible motors
 * often draw more.
 */
import { hpFromW } from '../../../shared/units/power.ts';

/**
 * Running current over the motor's service-factor amps by more than a clamp errs (2 %) and a supply
 * strays (5 %), with some room: argued, no source. Overloads may be set to trip at 115 to 140 % of
 * the full-load amps (NEC 430.32, from memory).
 */
export const OVER_PLATE_RATIO = 1.1;
/** Here an overload should have acted: nothing in the clamp or the supply explains it. */
export const FAR_OVER_PLATE_RATIO = 1.15;

/**
 * Column voltages of a table and, by horsepower, the full-load amps under each; null where the
 * table has no value.
 */
interface AmpsTable {
  volts: readonly number[];
  rows: readonly (readonly [hp: number, ...amps: (number | null)[]])[];
}

/**
 * NEC table 430.248, single-phase, full-load amps. Read in two independent copies that agree (NEC
 * 1999 table 430-148 and 430.248); unchanged through NEC 2020 from memory.
 */
const SINGLE_PHASE: AmpsTable = {
  volts: [115, 200, 208, 230],
  rows: [
    [1 / 6, 4.4, 2.5, 2.4, 2.2],
    [1 / 4, 5.8, 3.3, 3.2, 2.9],
    [1 / 3, 7.2, 4.1, 4.0, 3.6],
    [1 / 2, 9.8, 5.6, 5.4, 4.9],
    [3 / 4, 13.8, 7.9, 7.6, 6.9],
    [1, 16, 9.2, 8.8, 8.0],
    [1.5, 20, 11.5, 11.0, 10],
    [2, 24, 13.8, 13.2, 12],
    [3, 34, 19.6, 18.7, 17],
    [5, 56, 32.2, 30.8, 28],
    [7.5, 80, 46.0, 44.0, 40],
    [10, 100, 57.5, 55.0, 50],
  ],
};

/**
 * NEC table 430.250, three-phase squirrel cage, full-load amps, from two copies that agree. Other
 * copies on the web carry typing errors in the small sizes (1/2 hp at 230 V as 2.1 or 2.0); these
 * values are the agreeing ones.
 */
const THREE_PHASE: AmpsTable = {
  volts: [115, 200, 208, 230, 460],
  rows: [
    [1 / 2, 4.4, 2.5, 2.4, 2.2, 1.1],
    [3 / 4, 6.4, 3.7, 3.5, 3.2, 1.6],
    [1, 8.4, 4.8, 4.6, 4.2, 2.1],
    [1.5, 12.0, 6.9, 6.6, 6.0, 3.0],
    [2, 13.6, 7.8, 7.5, 6.8, 3.4],
    [3, null, 11.0, 10.6, 9.6, 4.8],
    [5, null, 17.5, 16.7, 15.2, 7.6],
    [7.5, null, 25.3, 24.2, 22, 11],
    [10, null, 32.2, 30.8, 28, 14],
  ],
};

/**
 * The supply that each column stands for, V: systems of 110-120 and 220-240 V as the table's note
 * says, widened to what is met.
 */
const COLUMN_SPANS: readonly { column: number; from: number; to: number }[] = [
  { column: 115, from: 105, to: 127 },
  { column: 200, from: 195, to: 204 },
  { column: 208, from: 204, to: 215 },
  { column: 230, from: 215, to: 250 },
  { column: 460, from: 430, to: 500 },
];

/**
 * A size within this share of a table's first or last row is read as that row (0.12 kW for 1/6 hp,
 * 7.5 kW for 10 hp).
 */
const EDGE_TOLERANCE = 0.05;

/**
 * Full-load amps of a motor by the table of its phase, between rows in proportion; undefined where
 * the table does not reach.
 */
export function fullLoadAmps(motor: { motorW: number; volts: number; phase: 1 | 3 }): number | undefined {
  const table = motor.phase === 1 ? SINGLE_PHASE : THREE_PHASE;
  const span = COLUMN_SPANS.find(({ from, to }) => motor.volts >= from && motor.volts <= to);
  const column = span ? table.volts.indexOf(span.column) : -1;
  if (column < 0) return undefined;
  const points = table.rows.flatMap(([hp, ...amps]) => {
    const value = amps[column];
    return value === undefined || value === null ? [] : [{ hp, amps: value }];
  });
  return interpolate(points, hpFromW(motor.motorW));
}

function interpolate(points: readonly { hp: number; amps: number }[], hp: number): number | undefined {
  const above = points.findIndex((point) => point.hp >= hp);
  const low = points[above < 0 ? points.length - 1 : above - 1];
  const high = points[above];
  if (low && high) return low.amps + ((high.amps - low.amps) * (hp - low.hp)) / (high.hp - low.hp);
  const edge = low ?? high;
  return edge && Math.abs(hp / edge.hp - 1) <= EDGE_TOLERANCE ? edge.amps : undefined;
}

/**
 * Locked-rotor code letters, kVA per hp (NEC table 430.7(B), NEMA MG 1). Half-open: a letter holds
 * from its own value up to the next letter's, which parts B from C where printed tables overlap. I,
 * O and Q are not used.
 */
const CODE_LETTERS: readonly (readonly [letter: string, fromKvaPerHp: number])[] = [
  ['A', 0],
  ['B', 3.15],
  ['C', 3.55],
  ['D', 4.0],
  ['E', 4.5],
  ['F', 5.0],
  ['G', 5.6],
  ['H', 6.3],
  ['J', 7.1],
  ['K', 8.0],
  ['L', 9.0],
  ['M', 10.0],
  ['N', 11.2],
  ['P', 12.5],
  ['R', 14.0],
  ['S', 16.0],
  ['T', 18.0],
  ['U', 20.0],
  ['V', 22.4],
];

/** The code letter of a motor that draws this many kVA per hp with its rotor held. */
export function codeLetter(kvaPerHp: number): string | undefined {
  return CODE_LETTERS.findLast(([, from]) => kvaPerHp >= from)?.[0];
}
