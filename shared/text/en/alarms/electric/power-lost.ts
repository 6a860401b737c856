/** What is said of `power-lost`. */
import { IF_IT_TRIPPED } from '../../cautions.ts';
import type { AlarmText } from '../text-shapes.ts';

export const powerLostText = {
  title: 'No power at the pump',
  means:
    'The supply of the pump, or of the box that watches it, is gone. No pump, no water after the tank is empty.',
  firstStep: `If lights are out too, call the power company. If only the pump is out, look at {breaker}. ${IF_IT_TRIPPED} Use a generator only through a transfer switch and outdoors. Save water.`,
  canBeWrong:
    'If the box has its own supply, that alone may be out, and the pump may be well. A voltage lead that came loose reads as no voltage: then the pump still runs at its next start.',
  needs: 'Voltage at the pump, or a node that reports it just before it lost power.',
  cautions: ['breaker-once', 'electrician', 'generator', 'flood', 'stock-water'],
  reasons: {
    'node-reports-power-lost': ({ node }: { node: string }) =>
      `Node ${node} reported that its power supply failed.`,
    'voltage-gone': ({ supplyV, ratedV }: { supplyV: number; ratedV: number }, { volts }) =>
      `The pump's supply is at ${volts(supplyV)}; it should be at ${volts(ratedV)}.`,
  },
} satisfies AlarmText;
