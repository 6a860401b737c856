/**
 * What the evidence of a finding holds where it is a form of its alarm. It is stored and compared;
 * what it reads as stands with the other figures (../text/en/figure-names.ts).
 */
import type { Evidence } from '../api/events.ts';
import type { AlarmForm } from '../text/en/alarms/kinds.ts';

export const FORM_EVIDENCE = {
  'past-cut-out': { switch: 'should be open' },
  'over-plate': { plate: 'exceeded' },
  'on-two-phases': { motor: 'may run on two phases' },
  'voltage-far-off': { voltage: 'far out of range' },
  'ended-by-protector': { protector: 'ended the run' },
} as const satisfies Record<AlarmForm, Evidence>;
