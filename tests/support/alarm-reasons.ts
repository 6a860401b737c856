/** Figures for each reason of each alarm: one row for each form that its sentence can take. */
import type { Reason } from '../../shared/text/en/reasons/reasons.ts';

type FiguresOf<Name extends Reason['reason']> = Extract<Reason, { reason: Name }>['figures'];

const dry = {
  amps: 4.2,
  referenceA: 8.1,
  reference: 'normal',
  isRunning: true,
  water: 'none',
} as const;
const motor = { runningA: 30, cardMaxA: 11 };
const points = { cutInKpa: 276, cutOutKpa: 414, cardCutInKpa: 207, cardCutOutKpa: 345 };
const fill = { fillS: 40, drawdownL: 38, expectedS: 95 };
const shift = { nowA: 9, normalA: 8, deviation: 0.125, supply: 'possible' } as const;
const even = { starts: 14, inS: 1080, restS: 40 };
const long = { runs: 4, ofRuns: 5, startS: 3 };
const inRun = { kpa: 480, isRunning: true };
const failed = { ranS: 2, peakA: 42, normalA: 8 };
const daily = { starts: 350, limitPerDay: 300 };
const liters = { lossLPerDay: 380 };
const fall = { fallKpaPerH: 14 };
const bothPoints = { cutInKpa: 250, normalCutInKpa: 276, cutOutKpa: 390, normalCutOutKpa: 414 };

export const REASON_FIGURES: { [Name in Reason['reason']]: readonly FiguresOf<Name>[] } = {
  'as-written': [],
  'dry-ended-by-protector': [{ times: 1 }, { times: 4, runLimitS: 720, recoveryS: 3600 }],
  'run-without-rise': [{ ranS: 240, kpa: 230, cutInKpa: 276, amps: 8 }],
  'voltage-dips': [{ dips: 14, lowestV: 180, ratedV: 230 }],
  'node-reports-power-lost': [{ node: 'n1' }],
  'voltage-gone': [{ supplyV: 3, ratedV: 230 }],
  'two-nodes-one-name': [{ node: 'n1' }],
  'node-silent': [{ node: 'n1', silentS: 7200 }],
  'node-on-pump-circuit-silent': [{ node: 'n1', silentS: 7200 }],
  'current-too-high-for-card': [motor],
  'current-too-low-for-card': [
    { ...motor, raisesPressure: true, mayBeStartLead: true },
    { ...motor, raisesPressure: false, mayBeStartLead: false },
  ],
  'voltage-differs-from-card': [{ runningV: 118, cardV: 230 }],
  'pressure-in-wrong-unit': (
    ['psi-as-pa', 'psi-as-kpa', 'kpa-as-pa', 'bar-as-pa', 'bar-as-kpa', 'kpa-as-psi', 'pa-as-kpa'] as const
  ).map((unit) => ({ ...points, unit })),
  'switch-points-differ-from-card': [
    { ...points, mayBeAbsolute: true },
    { ...points, mayBeAbsolute: false },
  ],
  'precharge-over-cut-in': [{ prechargeKpa: 310, cutInKpa: 276 }],
  'fill-too-short-for-card': [fill],
  'fill-too-long-for-card': [fill],
  'several-card-contradictions': [
    { ...motor, ...fill, reasons: ['current-too-high-for-card', 'fill-too-long-for-card'] },
  ],
  'channel-out-of-range': (['low', 'high', 'bad'] as const).map((fault) => ({
    channel: 'pressure',
    node: 'n1',
    fault,
    readings: 6,
  })),
  'channel-silent': [{ channel: 'pressure', node: 'n1', silentS: 900, otherChannel: 'current' }],
  'pressure-implausible': [{ meanKpa: 3000 }],
  'pressure-stuck': [
    { lastKpa: 300, stuckS: 90_000, runs: 12 },
    { stuckS: 90_000, runs: 1 },
  ],
  'pressure-dropped-with-full-tank': [{ fromKpa: 380, toKpa: 0, withinS: 5, tankL: 40 }],
  'pressure-rises-without-current': [{ climbs: 3, nowKpa: 400 }],
  'pressure-unit-changed': [
    { cutInKpa: 40, cutOutKpa: 60, learnedCutInKpa: 276, learnedCutOutKpa: 414, unit: 'psi-as-kpa' },
  ],
  'line-without-current': [{ line: 2, lineA: 0.1, otherLinesA: [9, 9.4] }],
  'starts-failed': [
    { ...failed, tries: 3, everyS: 120, peakRatio: 1, peakShows: 'locked-rotor' },
    { ranS: 2, tries: 1 },
  ],
  'start-failed-water-called-for': [
    { ...failed, peakRatio: 0.7, peakShows: 'one-winding', startS: 0.9, normalStartS: 0.5 },
  ],
  'switch-did-not-open': [
    { ...inRun, cutOutKpa: 414 },
    { kpa: 480, isRunning: false, cutOutKpa: 414 },
  ],
  'run-over-drive-pressure': [{ ...inRun, driveKpa: 350 }],
  'run-near-relief': [{ ...inRun, reliefKpa: 517 }],
  'over-tank-rating': [
    { ...inRun, maxKpa: 690 },
    { kpa: 700, isRunning: false, maxKpa: 690 },
  ],
  'switch-opened-high': [{ endedKpa: 480, cutOutKpa: 414 }, { endedKpa: 480 }],
  'pressure-high-at-rest': [{ kpa: 520, cutOutKpa: 414, heaterRiseKpa: 60 }, { kpa: 520 }],
  'dry-low-current': [
    { ...dry, kpa: 138, runLimitS: 780, recoveryS: 7800 },
    { ...dry, reference: 'motor-maximum', isRunning: false },
  ],
  'dry-current-fell': [
    { ...dry, ranNormallyS: 720, kpa: 138, isRunning: false, water: 'little-or-none', runLimitS: 780 },
  ],
  'called-for-water-no-current': (['float', 'timer', 'switch'] as const).map((caller) => ({
    caller,
    forS: 300,
  })),
  'under-cut-in-no-current': [{ kpa: 207, cutInKpa: 276, forS: 60 }],
  'run-over-cut-out': [{ ranS: 720, kpa: 455, cutOutKpa: 414 }],
  'run-under-cut-in': [{ ranS: 1800, kpa: 207, cutInKpa: 276 }],
  'run-under-cut-in-low-current': [{ ranS: 1800, kpa: 207, cutInKpa: 276, amps: 6 }],
  'run-past-normal-end': [{ ranS: 3600, amps: 7, cutOutA: 7.5 }],
  'run-unusually-long': [{ ranS: 50_400, kpa: 345, longestRunS: 10_800 }],
  'run-too-long': [{ ranS: 50_400, kpa: 345, longestRunS: 10_800 }, { ranS: 86_400 }],
  'no-pressure-pump-running': [{ kpa: 0 }],
  'no-pressure-pump-stopped': [{ kpa: 0 }],
  'rest-too-long': [{ restedS: 345_600, longestRestS: 72_000 }],
  'no-run-by-this-hour': [{ restedS: 50_400, days: 20 }],
  'turn-missed': [true, false].map((areMore) => ({
    otherPump: 'p2',
    otherStarts: 40,
    areMore,
    restedS: 172_800,
    longestRestS: 50_400,
  })),
  'store-under-lowest-day': [
    { storeM: 0.4, days: 14, lowestM: 0.9, emptyInS: 14_400 },
    { storeM: 0.4, days: 14, lowestM: 0.9 },
  ],
  'voltage-out-of-range': [
    { supplyV: 200, ratedV: 230, deviation: -0.13, sag: 0.06 },
    { supplyV: 260, ratedV: 230, deviation: 0.13 },
  ],
  'level-near-intake': [{ levelM: 1.2 }],
  'level-falls': [{ levelM: 6, fallMPerDay: 0.4, limitM: 2, days: 10 }],
  'air-near-freezing': [
    { airC: 1, isFalling: true },
    { airC: 1, isFalling: false },
  ],
  'tank-empty-before-start': [{ prechargeKpa: 300, cutInKpa: 276 }],
  'runs-start-over-cut-in': [{ startKpa: 300, cutInKpa: 276 }],
  'pressure-falls-suddenly': [{ startKpa: 340, cutInKpa: 276 }],
  'precharge-low': [{ prechargeKpa: 90, normalPrechargeKpa: 262 }],
  'fills-shorter': [{ fillS: 40, normalS: 95, lossRatio: 0.6 }],
  'fills-too-short-for-tank': [{ fillS: 20, minFillS: 60 }],
  'lost-on-days': [
    { ...liters, days: 3 },
    { ...fall, days: 3, deliveryFraction: 0.02 },
    { ...fall, days: 3 },
  ],
  'lost-without-pause': [{ ...fall, hours: 24 }],
  'lost-between-starts': [
    { ...liters, restS: 900, hours: 24 },
    { ...fall, restS: 900, hours: 24 },
  ],
  'starts-too-close': [
    { starts: 14, inS: 1080, ranS: 20, fillS: 95 },
    { starts: 14, inS: 1080, ranS: 20 },
  ],
  'runs-too-short': [{ starts: 14, inS: 1080, ranS: 20, minS: 60 }],
  'rests-too-short': [even],
  'rests-too-regular': [even],
  'starts-bounce': [long],
  'starts-slow': [long],
  'starts-over-daily-limit': [
    { ...daily, over: 'today', isSizeKnown: true, normalPerDay: 60 },
    { ...daily, over: 'one-day', isSizeKnown: false },
    { ...daily, over: 'two-days', isSizeKnown: true },
  ],
  'starts-always-over-limit': [{ ...daily, over: 'one-day', isSizeKnown: true, normalPerDay: 340 }],
  'runs-end-under-cut-out': [{ runs: 3, ofRuns: 4, endedKpa: 345, cutOutKpa: 414 }],
  'pressure-levels-off': [{ ranS: 50_400, kpa: 372, cutOutKpa: 414 }],
  'delivery-down': [{ lossRatio: 0.21 }],
  'fills-slow': [{ fillS: 180, normalS: 120 }],
  'store-fills-slow': [{ runs: 8, fillS: 7200, normalS: 3600 }],
  'current-over-motor-maximum': [{ nowA: 12, maxA: 10.4, learnedA: 8 }],
  'current-above-normal': [
    { ...shift, runs: 20 },
    { ...shift, supply: 'excluded' },
  ],
  'current-below-normal': [
    { ...shift, deviation: -0.1, runs: 1, supply: 'compensated', fillRatio: 1.3 },
    { ...shift, deviation: -0.1, supply: 'excluded' },
  ],
  'lines-unbalanced': [{ linesA: [9, 9.4, 7], unbalance: 0.17, normalUnbalance: 0.02 }],
  'switch-point-moved': (['cut-in', 'cut-out'] as const).map((point) => ({
    point,
    nowKpa: 250,
    normalKpa: 276,
  })),
  'both-switch-points-moved': [bothPoints],
  'both-switch-points-moved-alike': [bothPoints],
  'starts-over-normal': [{ starts: 90, normalPerDay: 30 }],
  'starts-under-normal': [{ starts: 3, normalPerDay: 30 }],
  'starts-over-normal-shorter-runs': [{ starts: 90, normalPerDay: 30 }],
  'starts-over-normal-for-weeks': [{ starts: 60, normalPerDay: 30, days: 14 }],
  'site-nodes-silent': [{ silentNodes: 3, nodeCount: 4 }],
  'watching-stopped': [{}],
};
