/**
 * Titles of the printed labels, and the caution that each carries: short enough for a label, and
 * never softer than ./cautions.ts.
 */
export const LABEL_KINDS = ['tank', 'pressure-switch', 'control-box', 'panel', 'well-head'] as const;
export type LabelKind = (typeof LABEL_KINDS)[number];

/**
 * What stands at the place of a control box depends on the motor: a drive, a starter, or for motors
 * that need none the disconnect.
 */
export const LABEL_TITLES = {
  tank: 'Pressure tank',
  'pressure-switch': 'Pressure switch',
  'control-box': 'Control box',
  drive: 'Pump drive',
  starter: 'Motor starter',
  disconnect: 'Pump disconnect',
  panel: 'Well pump breaker',
  'well-head': 'Well head',
} as const;

/** Two rows of a label each. */
export const LABEL_CAUTIONS: Record<LabelKind, string> = {
  tank: 'Compressed air. Before it is read or set: pump locked off, a tap open, the gauge at zero. Never over the pressure on its plate.',
  'pressure-switch':
    'Live parts, and the pump starts by itself. Licensed people only: breaker off, locked off, proved dead.',
  'control-box':
    'Live parts, and capacitors stay charged. Licensed people only: breaker off, locked off, proved dead.',
  panel:
    'Tripped? Employees, or after a hum, storm, wet well head: call. Else reset once, stand aside, nobody at work. Lock off for work.',
  'well-head':
    'Well contractors only: breaker locked off before the cap is lifted, well disinfected and tested after. Stay out of pits.',
};

/** How an air charge is read, in the words that every tank label carries. */
export const PRECHARGE_CONDITIONS = 'with the tank empty of water and the pump off';

/** What stands under the code of a label, and beside the bar at the foot of a sheet. */
export const LABEL_SHEET = {
  codeCaption: (madeOn: string) => `Facts as text · ${madeOn}`,
  scaleBar: 'This bar is 50 mm long if the printer kept the size.',
};
