/** What is said of `node-silent`. */
import type { AlarmText } from '../text-shapes.ts';

export const nodeSilentText = {
  title: 'Nothing heard from a node',
  means:
    'The box at the well has sent nothing for longer than it ever does. The well may be fine; nobody is watching it now.',
  firstStep:
    'Open a tap. If no water comes, the pump may be out too: look at {breaker} from outside, and call {firm}. Else look from outside whether the box has power and its radio or network is up. If it stays silent, call whoever installed it.',
  canBeWrong:
    'A network that is down, a router being changed, or a battery box asleep in the cold is no trouble of the well. The box keeps its readings and may bring them later.',
  needs: 'Nothing but the box’s own messages.',
  cautions: [
    'hot-panel',
    'breaker-once',
    'after-reset',
    'electrician',
    'well-pit',
    'only-watches',
    'stock-water',
  ],
  reasons: {
    'node-silent': ({ node, silentS }: { node: string; silentS: number }, { duration }) =>
      `Node ${node} has sent nothing for ${duration(silentS)}. This well is not being watched.`,
    'node-on-pump-circuit-silent': ({ node, silentS }: { node: string; silentS: number }, { duration }) =>
      `Node ${node} has sent nothing for ${duration(silentS)}. The pump's circuit powers it, so the pump may have lost power too.`,
  },
} satisfies AlarmText;
