/** Why a day teaches no normal values; each ends the sentence "no normal found here, because …". */
export const notLearnedReasons = {
  'not-heard': ({ heardPercent }: { heardPercent: number }) => `only ${heardPercent} % of the day was heard`,
  'amps-over-maximum': ({ amps, maxAmps }: { amps: number; maxAmps: number }) =>
    `the pump draws ${amps.toFixed(1)} A, over the motor's maximum of ${maxAmps.toFixed(1)} A`,
  'hardly-stops': 'the pump hardly ever stops',
  'bad-leak': ({ leakLPerDay }: { leakLPerDay: number }) =>
    `about ${Math.round(leakLPerDay / 10) * 10} L a day leave while nobody draws water`,
  'runs-too-short-for-tank': ({ ranS, tankL, minS }: { ranS: number; tankL: number; minS: number }) =>
    `runs of ${ranS.toFixed(0)} s are too short for a tank of ${Math.round(tankL)} L that holds its air: it takes ${minS.toFixed(0)} s at least`,
  'too-many-starts': ({ starts, max }: { starts: number; max: number }) =>
    `${starts} starts in a day are more than the ${max} that the motor allows`,
  'runs-too-short': ({ ranS }: { ranS: number }) =>
    `runs of ${ranS.toFixed(0)} s are too short for any tank that holds its air`,
  'precharge-over-cut-in': ({ prechargeKpa, cutInKpa }: { prechargeKpa: number; cutInKpa: number }) =>
    `the tank's air charge of ${Math.round(prechargeKpa)} kPa is over the cut-in of ${Math.round(cutInKpa)} kPa`,
  'precharge-lost': ({ prechargeKpa, cardKpa }: { prechargeKpa: number; cardKpa: number }) =>
    `the tank has lost half of its air charge: ${Math.round(prechargeKpa)} kPa of ${Math.round(cardKpa)} kPa`,
  'alarm-was-active': ({ kind }: { kind: string }) => `${kind} was active`,
};

export function noNormalText(because: string): string {
  return `no normal found here, because ${because}`;
}
