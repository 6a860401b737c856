/** What the pump's alarms say, one row a form of a sentence, for a reader of US units. */
import { expect, test } from 'vitest';
import { REASON_FORMATS } from '../../../shared/text/en/reasons/format.ts';
import { reasonSentence, type Reason } from '../../../shared/text/en/reasons/reasons.ts';

const PSI = 6.894757293168;
const dry = {
  amps: 4.2,
  referenceA: 8.1,
  reference: 'normal',
  isRunning: true,
  water: 'none',
} as const;

test.each<[Reason, string]>([
  [
    { reason: 'dry-low-current', figures: { ...dry, kpa: 20 * PSI } },
    'The pump draws 4.2 A, 52 % of its normal 8.1 A. Pressure stays at 20 psi: the pump lifts no water.',
  ],
  [
    { reason: 'dry-low-current', figures: { ...dry, reference: 'motor-maximum', isRunning: false } },
    "The pump drew 4.2 A, 52 % of the motor's maximum of 8.1 A. Pressure is not measured; a closed valve looks the same.",
  ],
  [
    {
      reason: 'dry-current-fell',
      figures: {
        ...dry,
        ranNormallyS: 720,
        kpa: 20 * PSI,
        isRunning: false,
        water: 'little-or-none',
        runLimitS: 780,
        recoveryS: 7800,
      },
    },
    'The pump ran normally for 12 min, then its current fell to 4.2 A, 52 % of its normal 8.1 A. Pressure stayed at 20 psi: the pump lifted little or no water. Runs over 13 min pump the well down; it recovers in 2 h 10 min.',
  ],
  [
    { reason: 'starts-failed', figures: { tries: 3, ranS: 2, peakA: 42, normalA: 8, everyS: 120 } },
    'The motor tried to start 3 times and did not run. It tries about every 2 min, like an overload that resets. It drew up to 42 A for 2 s; a running motor draws 8 A.',
  ],
  [
    {
      reason: 'start-failed-water-called-for',
      figures: {
        ranS: 2,
        peakA: 30,
        peakRatio: 0.7,
        peakShows: 'one-winding',
        startS: 0.9,
        normalStartS: 0.5,
      },
    },
    'The motor tried to start and did not run, and water is still called for. It drew up to 30 A for 2 s. That is 70 % of the peak of its good starts, typical of a motor on one winding. Its good starts now take 0.9 s; 0.5 s was normal.',
  ],
  [
    { reason: 'called-for-water-no-current', figures: { caller: 'float', forS: 300 } },
    'The float has called for water for 5 min, and no current flows.',
  ],
  [
    { reason: 'under-cut-in-no-current', figures: { kpa: 30 * PSI, cutInKpa: 40 * PSI, forS: 60 } },
    'Pressure is 30 psi, under the cut-in of 40 psi. No current has flowed for 60 s.',
  ],
  [
    { reason: 'rest-too-long', figures: { restedS: 4 * 86_400, longestRestS: 72_000 } },
    'The pump has not run for 4 days. Its longest normal rest was 20 h.',
  ],
  [
    { reason: 'no-run-by-this-hour', figures: { restedS: 50_400, days: 20 } },
    'The pump has not run for 14 h. It had run by this hour on each of the last 20 normal days.',
  ],
  [
    {
      reason: 'turn-missed',
      figures: { otherPump: 'p2', otherStarts: 40, areMore: true, restedS: 172_800, longestRestS: 50_400 },
    },
    'This pump takes turns with p2. It has not run for 2 days, and p2 started at least 40 times. Its longest normal rest was 14 h.',
  ],
  [
    { reason: 'run-over-cut-out', figures: { ranS: 720, kpa: 66 * PSI, cutOutKpa: 60 * PSI } },
    'The pump has run for 12 min and holds 66 psi. Its switch should open at 60 psi.',
  ],
  [
    { reason: 'run-under-cut-in', figures: { ranS: 1800, kpa: 30 * PSI, cutInKpa: 40 * PSI } },
    'The pump has run for 30 min at 30 psi, under its cut-in of 40 psi. Pressure does not rise: water leaves as fast as the pump delivers it.',
  ],
  [
    {
      reason: 'run-under-cut-in-low-current',
      figures: { ranS: 1800, kpa: 30 * PSI, cutInKpa: 40 * PSI, amps: 6 },
    },
    'The pump has run for 30 min at 30 psi, under its cut-in of 40 psi. It draws 6 A, too little for that pressure: it delivers little water.',
  ],
  [
    { reason: 'run-past-normal-end', figures: { ranS: 3600, amps: 7, cutOutA: 7.5 } },
    'The pump has run for 60 min and draws 7 A; its switch normally opens at 7.5 A. It moves little or no water. Pressure is not measured; a closed valve looks the same.',
  ],
  [
    { reason: 'run-too-long', figures: { ranS: 50_400, kpa: 50 * PSI, longestRunS: 10_800 } },
    'The pump has run for 14 h without stopping at 50 psi. Its longest normal run was 3 h.',
  ],
  [{ reason: 'run-too-long', figures: { ranS: 86_400 } }, 'The pump has run for 24 h without stopping.'],
  [
    {
      reason: 'runs-end-under-cut-out',
      figures: { runs: 3, ofRuns: 4, endedKpa: 50 * PSI, cutOutKpa: 60 * PSI },
    },
    '3 of the last 4 runs ended under cut-out, the last at 50 psi. The switch normally opens at 60 psi.',
  ],
  [
    { reason: 'pressure-levels-off', figures: { ranS: 50_400, kpa: 54 * PSI, cutOutKpa: 60 * PSI } },
    'The pump has run for 14 h. Pressure has leveled off at 54 psi, under the cut-out of 60 psi.',
  ],
  [
    { reason: 'delivery-down', figures: { lossRatio: 0.21 } },
    'The pump delivers 21 % less than normal at the same pressure.',
  ],
  [
    { reason: 'fills-slow', figures: { fillS: 180, normalS: 120 } },
    'Even the shortest fills now take 3 min; 2 min was normal.',
  ],
  [
    { reason: 'store-fills-slow', figures: { runs: 8, fillS: 7200, normalS: 3600 } },
    'The shortest of the last 8 fills of the storage tank took 2 h; 60 min was normal.',
  ],
  [
    { reason: 'starts-bounce', figures: { runs: 4, ofRuns: 5, startS: 3 } },
    'Starting current lasted 3 s in 4 of the last 5 runs; it normally lasts under a second. The motor starts several times in each run: contacts may bounce.',
  ],
  [
    { reason: 'starts-slow', figures: { runs: 5, ofRuns: 5, startS: 3 } },
    'Starting current lasted 3 s in 5 of the last 5 runs; it normally lasts under a second. The motor comes up to speed slowly.',
  ],
])('$reason', (reason, sentence) => {
  expect(reasonSentence(reason, REASON_FORMATS.us)).toBe(sentence);
  expect(reasonSentence(reason, REASON_FORMATS.metric)).not.toMatch(/\b(psi|gal|ft)\b/);
});
