/** Titles of the printed labels, and the caution that each carries: short enough for a label, and never softer than ./cautions.ts. */
export const LABEL_KINDS = ['tank', 'pressure-switch', 'control-box', 'panel', 'well-head'] as const;
export type LabelKind = (typeof LABEL_KINDS)[number];

/** What stands at the place of a control box depends on the motor: a drive, a starter, or for motors that need none the disconnect. */
export const LABEL_TITLES = {
  tank: 'Pressure tank',
  'pressure-switch': 'Pressure switch',
  'control-box': 'Control box',
  drive: 'Pump drive',
  starter: 'Motor starter',
  disconnect: 'Pump disconnect',
  panel: 'Breaker panel: well pump',
  'well-head': 'Well head',
} as const;

export const LABEL_CAUTIONS: Record<LabelKind, string> = {
  tank: 'Compressed air. Read and set the charge only with the pump off and locked off, a tap open, and the gauge at zero. Stay under the pressure on the tank’s plate.',
  'pressure-switch':
    'Live parts, and the pump starts by itself. Licensed people only, with the breaker off, locked off and the circuit proved dead.',
  'control-box':
    'Live parts, and capacitors keep a charge after the power is off. Licensed people only, with the breaker off, locked off and the circuit proved dead.',
  panel:
    'If it has tripped, reset it once at most. If it trips again, leave it off and call. Lock it off while anybody works on pump, switch or tank.',
  'well-head':
    'Switch the breaker off and lock it off before the cap is lifted. Stay out of well pits. Disinfect and test after it was open.',
};

/** How an air charge is read, in the words that every tank label carries. */
export const EMPTY_AND_OFF = 'with the tank empty of water and the pump off';
