/**
 * What a card says of the well that no reading can tell and no watch judges by: makers, the hole,
 * wiring, treatment, where things are and whom to call. It stands apart from the rest of the card,
 * so that a change of it can't touch what was learnt: no watch reads it. Notices say whom to call
 * by it.
 */
import type {
  CARD_NOTES,
  DISTANCES,
  ELECTRICAL,
  HOLE,
  PERMIT,
  PUMP_NOTES,
  STORAGE,
  TANK_NOTES,
  TREATMENT_UNITS,
  WHERE,
  WIRE,
  WIRES,
} from '../../../shared/card/description-fields.ts';
import type { Values } from '../../../shared/schema/field.ts';

/** A check valve: how deep, or beside what it sits. */
export type CheckValve = { depthM: number } | { beside: string };

export type WireDescription = Values<typeof WIRE>;
export type PumpDescription = Values<typeof PUMP_NOTES> & { wire?: WireDescription };
export type TankDescription = Values<typeof TANK_NOTES>;
export type HoleDescription = Omit<Values<typeof HOLE>, 'checkValves'> & { checkValves: CheckValve[] };
export type ElectricalDescription = Omit<Values<typeof ELECTRICAL>, 'photos'> & {
  /** By place; only those of which something is said. */
  wires: Values<typeof WIRES>;
  photos: string[];
};
export type Location = keyof typeof WHERE;

/** By unit; only those of which something is said. */
export type TreatmentUnits = {
  [U in keyof typeof TREATMENT_UNITS]?: Values<(typeof TREATMENT_UNITS)[U]>;
};

export type CardDescription = Omit<Values<typeof CARD_NOTES>, 'treatment'> & {
  treatment: string[];
  /** By the pump's name, `p1`; only those of which something is said. */
  pumps: Record<string, PumpDescription>;
  hole: HoleDescription;
  tank: TankDescription;
  electrical: ElectricalDescription;
  where: Values<typeof WHERE>;
  /** The objects below are there where something is said of them. */
  storage?: Values<typeof STORAGE>;
  distances?: Values<typeof DISTANCES>;
  permit?: Values<typeof PERMIT>;
  treatmentUnits?: TreatmentUnits;
};
