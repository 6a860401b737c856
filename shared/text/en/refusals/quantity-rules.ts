/** Rules of quantities as people write them, each to stand after the name of its field. */

/** "kPa, psi or bar". */
export function either(units: readonly string[]): string {
  return units.length < 2 ? units.join('') : `${units.slice(0, -1).join(', ')} or ${units.at(-1)}`;
}

export const quantityRules = {
  dimensions: {
    pressure: 'a pressure',
    length: 'a length',
    volume: 'a volume',
    flow: 'a flow',
    power: 'a power',
    current: 'a current',
    voltage: 'a voltage',
    temperature: 'a temperature',
    duration: 'a duration',
    resistance: 'a resistance',
    capacitance: 'a capacitance',
  },
  /** `what`: one of the dimensions above. */
  expected: (what: string, units: readonly string[]) => `${what} in ${either(units)}`,
  mustBe: (expected: string) => `must be ${expected}`,
  mustBeFlowAndHead: 'must each be a flow and a head (such as "10 gpm at 180 ft")',
  mustBeAPosition: 'must be latitude and longitude in decimal degrees (such as "40.01, -105.27")',
  mustBeTwoPressures: 'must be two pressures, cut-in first (such as "40/60 psi")',
  mustHaveCutInBelowCutOut: 'must have its cut-in above 0 and below its cut-out',
  mustBeTestLine:
    'must each be a time, a level and, if read, a flow, with commas between (such as "10 min, 85 ft, 8 gpm")',
  mustBeAWireSize: (range: string) => `must be a wire size in AWG, kcmil or mm2 (such as "12 AWG"), ${range}`,
};
