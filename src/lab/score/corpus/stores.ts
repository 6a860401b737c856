/**
 * Wells without a pressure switch, or with a valve or a drive behind it: a float or a timer that
 * fills a store, a drive that holds a pressure, a valve that throttles.
 */
import { kpaFromPsi } from '../../../../shared/units/pressure.ts';
import { controlledSetup, type Setup, type WellOptions } from './setup.ts';

/**
 * A cistern of 4 m3 above the house or the paddock, filled by a float between 1.4 m and 1.8 m of
 * depth.
 */
export function floatStore(options: WellOptions): Setup {
  return controlledSetup(
    { use: 'stock', size: 'threeQuarterHp', ...options },
    { is: 'float', storeL: 4000, areaM2: 2, onM: 1.4, offM: 1.8 },
    { control: 'float' },
  );
}

/** The same cistern, filled by a clock at fixed hours; an overflow takes what is too much. */
export function timerStore(options: WellOptions, onHours: readonly number[], forMin: number): Setup {
  return controlledSetup(
    { use: 'stock', size: 'threeQuarterHp', ...options },
    { is: 'timer', storeL: 4000, areaM2: 2, onHours, forMin },
    { control: 'timer' },
  );
}

/** A drive that holds 55 psi and sleeps where hardly anything is drawn; a tank of a few gallons. */
export function variableSpeed(options: WellOptions): Setup {
  return controlledSetup(
    { size: 'oneHp', tankGal: 4, cutInPsi: 50, cutOutPsi: 60, ...options },
    { is: 'variable-speed', setKpa: kpaFromPsi(55), sleepBelowLPerS: 0.05, wakeKpa: kpaFromPsi(50) },
    { control: 'variable-speed', switch: { cutIn: '50 psi', cutOut: '60 psi' } },
  );
}

/**
 * A valve that throttles a fixed-speed pump to 50 psi, with a small tank and a 40/60 switch behind
 * it.
 */
export function constantPressureValve(options: WellOptions): Setup {
  return controlledSetup(
    { size: 'oneHp', tankGal: 4, ...options },
    {
      is: 'constant-pressure-valve',
      setKpa: kpaFromPsi(50),
      cutInKpa: kpaFromPsi(40),
      cutOutKpa: kpaFromPsi(60),
      minLPerS: 0.065,
    },
    { control: 'constant-pressure-valve', switch: { cutIn: '40 psi', cutOut: '60 psi' } },
  );
}
