/** What is said of `sensor-fault`. */
import { cardContradictionReasons, wrongUnitText, type WrongUnit } from './card-contradictions.ts';
import type { AlarmText } from '../text-shapes.ts';

const FAULT_TEXT = {
  low: 'below its range, as a broken wire does',
  high: 'above its range',
  bad: 'faulty values',
} as const;

export const sensorFaultText = {
  title: 'A sensor cannot be right',
  means:
    'A reading is out of its range, has not moved for too long, fell to nothing faster than the tank can empty, or contradicts the card. What depends on it is not judged until it is right.',
  firstStep:
    'Compare with the gauge at the tank, but not while the pressure is over cut-out, or with what the pump is doing. Look for a loose lead or a wet box, and touch neither: both may be live. Call the electrician or pump contractor who fitted it.',
  canBeWrong:
    'A well that rests for days gives steady readings too, and a pump of another make draws what the card does not say. A wrong card can make a good sensor look bad. A pipe torn off while the power is out can look like a gauge that lost its plug: if no tap runs, it is the water. The alarm says which of the two it compared.',
  needs:
    'The channel in question, and at least one other of the same well to compare with. Some kinds need the card.',
  cautions: ['electrician', 'well-pit', 'freezing'],
  reasons: {
    ...cardContradictionReasons,
    'channel-out-of-range': (
      {
        channel,
        node,
        fault,
        readings,
      }: { channel: string; node: string; fault: 'low' | 'high' | 'bad'; readings: number },
      { count },
    ) =>
      `The ${channel} channel of node ${node} reads ${FAULT_TEXT[fault]}, in ${count(readings, 'reading', 'consecutive readings')}.`,
    'channel-silent': (
      {
        channel,
        node,
        silentS,
        otherChannel,
      }: { channel: string; node: string; silentS: number; otherChannel: string },
      { duration },
    ) => `Node ${node} has sent no ${channel} for ${duration(silentS)}. It still sends ${otherChannel}.`,
    'pressure-implausible': ({ meanKpa }: { meanKpa: number }, { pressure }) =>
      `The transducer reads ${pressure(meanKpa)}. No water system has that pressure: the transducer or its scale is wrong.`,
    'pressure-stuck': (
      { lastKpa, stuckS, runs }: { lastKpa?: number; stuckS: number; runs: number },
      { pressure, duration, count },
    ) =>
      `Pressure has read exactly ${lastKpa === undefined ? 'the same' : pressure(lastKpa)} for ${duration(stuckS)}, through ${count(runs, 'run', 'runs')} of the pump. The transducer or its line is stuck.`,
    'pressure-dropped-with-full-tank': (
      { fromKpa, toKpa, withinS, tankL }: { fromKpa: number; toKpa: number; withinS: number; tankL: number },
      { pressure, duration, volume },
    ) =>
      `The transducer fell from ${pressure(fromKpa)} to ${pressure(toKpa)} within ${duration(withinS)} and has not changed since. The ${volume(tankL)} in the tank cannot leave so fast.`,
    'pressure-rises-without-current': (
      { climbs, nowKpa }: { climbs: number; nowKpa: number },
      { pressure, count },
    ) =>
      `Pressure has risen to cut-out ${count(climbs, 'time', 'times')} without pump current; it is now ${pressure(nowKpa)}. The pump runs, but its clamp does not show it.`,
    'pressure-unit-changed': (
      {
        cutInKpa,
        cutOutKpa,
        learnedCutInKpa,
        learnedCutOutKpa,
        unit,
      }: {
        cutInKpa: number;
        cutOutKpa: number;
        learnedCutInKpa: number;
        learnedCutOutKpa: number;
        unit: WrongUnit;
      },
      { pressure },
    ) =>
      `The pump starts at ${pressure(cutInKpa)} and stops at ${pressure(cutOutKpa)}; it used to at ${pressure(learnedCutInKpa)} and ${pressure(learnedCutOutKpa)}. ${wrongUnitText(unit)} since then.`,
  },
} satisfies AlarmText;
