/** Why a day teaches no normal values; each ends the sentence "no normal found here, because …". */
export const notLearnedReasons = {
  'not-heard': ({ heardPercent }: { heardPercent: number }) =>
    `only ${heardPercent} % of the day has readings`,
  'amps-over-maximum': ({ amps, maxAmps }: { amps: number; maxAmps: number }) =>
    `the pump draws ${amps.toFixed(1)} A, over the motor's maximum of ${maxAmps.toFixed(1)} A`,
  'hardly-stops': 'the pump hardly ever stops',
  'bad-leak': ({ leakLPerDay }: { leakLPerDay: number }) =>
    `about ${Math.round(leakLPerDay / 10) * 10} L a day leak out while nobody draws water`,
  'runs-too-short-for-tank': ({ ranS, tankL, minS }: { ranS: number; tankL: number; minS: number }) =>
    `runs of ${ranS.toFixed(0)} s are too short for a tank of ${Math.round(tankL)} L that holds its air: a run takes at least ${minS.toFixed(0)} s`,
  'too-many-starts': ({ starts, max }: { starts: number; max: number }) =>
    `${starts} starts in a day are more than the ${max} that the motor allows`,
  'runs-too-short': ({ ranS }: { ranS: number }) =>
    `runs of ${ranS.toFixed(0)} s are too short for any tank that holds its air`,
  'precharge-over-cut-in': ({ prechargeKpa, cutInKpa }: { prechargeKpa: number; cutInKpa: number }) =>
    `the tank's precharge of ${Math.round(prechargeKpa)} kPa is over the cut-in of ${Math.round(cutInKpa)} kPa`,
  'precharge-lost': ({ prechargeKpa, cardKpa }: { prechargeKpa: number; cardKpa: number }) =>
    `the tank has lost half of its precharge: ${Math.round(prechargeKpa)} kPa of ${Math.round(cardKpa)} kPa`,
  'alarm-was-active': ({ kind }: { kind: string }) => `${kind} was active`,
};

export function noNormalText(because: string): string {
  return `no normal values found here, because ${because}`;
}
