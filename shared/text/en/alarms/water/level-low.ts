/** What is said of `level-low`. */
import type { AlarmText } from '../text-shapes.ts';

export const levelLowText = {
  title: 'Water in the well is low',
  means:
    'The water in the well comes near the pump. If it gets there the pump runs dry, and can be ruined in minutes.',
  firstStep:
    'Stop watering. If the level is near the intake, switch the pump off at {breaker} at once, before the taps spit air. Leave it off overnight, or until the level has come back. If it is not back by morning, call {firm}.',
  canBeWrong:
    'A level sensor that slipped, fouled or was hung anew reads low. A wrong zero looks the same. After a dry season a well may live at such a level for weeks without harm. Then it matters how far a run draws it down.',
  needs: 'The water level over the pump’s intake.',
  cautions: ['hot-panel', 'lock-out', 'stock-water', 'only-watches', 'local-rules'],
  reasons: {
    'level-near-intake': ({ levelM }: { levelM: number }, { length }) =>
      `The water level in the well is only ${length(levelM)} above the pump's intake.`,
    'level-falls': (
      {
        levelM,
        fallMPerDay,
        limitM,
        days,
      }: { levelM: number; fallMPerDay: number; limitM: number; days: number },
      { length, count },
    ) =>
      `The lowest water level of the day is ${length(levelM)} above the pump's intake and falls by ${length(fallMPerDay)} a day. At that rate it reaches ${length(limitM)} in ${count(Math.max(1, Math.round(days)), 'day', 'days')}.`,
  },
} satisfies AlarmText;
