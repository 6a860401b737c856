/** What is said of `freeze-risk`. */
import type { AlarmText } from '../text-shapes.ts';

export const freezeRiskText = {
  title: 'Pump house near frost',
  means:
    'It is about to freeze where the pump, the tank or the switch stands. Ice bursts pipes, and a frozen line to the switch can keep the pump from starting, or from stopping.',
  firstStep:
    'See whether the heater is on. Shut the door, and the vents unless gas, oil or wood burns in there. Open the doors of cabinets with pipes in them. Let one cold tap run as thick as a pencil, and enter it as expected. At freezing, go there: keep the tap running, and a heater on an outlet with ground-fault protection (GFCI). If a pipe is frozen already, switch the pump off at {breaker} and call {firm}.',
  canBeWrong:
    'A sensor by a door or on an outer wall reads colder than the pipes are. Does it hang outside? Enter that on the card, and this alarm is not raised again.',
  needs: 'Temperature of the air at the pump.',
  cautions: ['hot-panel', 'freezing', 'electrician', 'well-pit'],
  reasons: {
    'air-near-freezing': ({ airC, isFalling }: { airC: number; isFalling: boolean }, { temperature }) =>
      `The air at the pump is ${temperature(airC)}${isFalling ? ' and falling' : ''}. Water in pipes and in the switch's line freezes at ${temperature(0)}.`,
  },
} satisfies AlarmText;
