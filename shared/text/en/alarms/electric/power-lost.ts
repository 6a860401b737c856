/** What is said of `power-lost`. */
import { IF_IT_TRIPPED } from '../../cautions.ts';
import type { AlarmText } from '../text-shapes.ts';

export const powerLostText = {
  title: 'No power at the pump',
  means:
    'The supply of the pump, or of the box that watches it, is gone. A well often has a meter of its own, so lights elsewhere can be on. Save water: without the pump there is none once the tank is empty. The pump starts by itself when the power returns.',
  firstStep: `If lights are out, call the power company. Else look at {breaker}. ${IF_IT_TRIPPED} If it is on, call the power company too. If somebody turned it off, ask why.`,
  canBeWrong:
    'If the box has its own supply, that alone may be out, and the pump may be well. A voltage lead that came loose reads as no voltage: then the pump still runs at its next start.',
  needs: 'Voltage at the pump, or a node that reports it just before it lost power.',
  cautions: [
    'downed-line',
    'hot-panel',
    'breaker-once',
    'after-reset',
    'electrician',
    'lock-out',
    'generator',
    'generator-load',
    'flood',
    'stock-water',
  ],
  reasons: {
    'node-reports-power-lost': ({ node }: { node: string }) =>
      `Node ${node} reported that its power supply failed.`,
    'voltage-gone': ({ supplyV, ratedV }: { supplyV: number; ratedV: number }, { volts }) =>
      `The pump's supply is at ${volts(supplyV)}; it should be at ${volts(ratedV)}.`,
  },
} satisfies AlarmText;
