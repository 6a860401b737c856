/** Words for the causes in the pump, the motor and the well itself. */
import type { Cause } from '../alarms/kinds.ts';
import type { CauseWords } from '../alarms/text-shapes.ts';

export const PUMP_CAUSES = {
  'worn-pump': {
    name: 'Worn pump',
    what: 'The stages of the pump are worn, by age or by sand. It turns as ever and lifts less.',
    evidenceFor:
      'Fills have become slower over weeks or months, and the amps have drifted, mostly downwards. Runs are longer for the same water.',
    evidenceAgainst: 'It came from one day to the next, or the delivery is as it was at every pressure.',
    firstStep: 'Have a pump contractor measure flow and amps at a known pressure, and plan a replacement.',
    cautions: ['lock-out', 'contamination', 'local-rules'],
  },
  'failing-motor': {
    name: 'Failing motor',
    what: 'Bearings or windings of the motor are going. It draws more for the same work and runs hot.',
    evidenceFor:
      'The amps have climbed while pressure and delivery are as ever. Starts draw more or last longer.',
    evidenceAgainst: 'The supply voltage moved along with the amps, or delivery changed as well.',
    firstStep:
      'Have an electrician or pump contractor measure amps, winding resistance and insulation, with the power locked off.',
    cautions: ['stored-charge', 'electrician', 'lock-out'],
  },
  'failing-capacitor': {
    name: 'Failing start parts in the control box',
    what: 'A start or run capacitor, or the start relay, is weak. A single-phase motor then starts badly or not at all. A jet pump has its capacitor under a cover on the motor.',
    evidenceFor: 'Starts last longer, or fail and succeed in turn. Running amps may have stepped up.',
    evidenceAgainst:
      'The motor is a three-phase one, or a two-wire submersible: its starter parts are inside it.',
    firstStep:
      'Switch the pump off at its breaker and leave it off. Have an electrician or pump contractor check the control box: a capacitor keeps its charge after the power is off.',
    cautions: ['hot-panel', 'switching-off', 'stored-charge', 'electrician', 'lock-out', 'stock-water'],
  },
  'stuck-rotor': {
    name: 'Locked rotor (seized or sand-locked pump)',
    what: 'Sand, scale or a failed bearing holds the pump. The motor draws its full starting current and does not turn.',
    evidenceFor: 'Starting current for a second or more, then nothing, again and again.',
    evidenceAgainst: 'Some starts end in a good run.',
    firstStep:
      'Switch the pump off at its breaker and leave it off. More tries can burn the motor out. Call a pump contractor.',
    cautions: ['hot-panel', 'switching-off', 'stored-charge', 'electrician', 'lock-out', 'stock-water'],
  },
  'low-well': {
    name: 'Low water in the well',
    what: 'The pump draws more than the well gives, and the water falls to the pump.',
    evidenceFor:
      'Amps and pressure fall the longer it runs, air comes from the taps, and it is better after a long rest.',
    evidenceAgainst:
      'The measured level is well above the pump, or it happens at the start of a run as well, after a long rest.',
    firstStep:
      'Switch the pump off at its breaker and let the well rest for some hours or overnight. Then draw slowly, and switch off again if the taps spit air. Have a pump contractor measure the level and protect the pump from running dry.',
    cautions: ['hot-panel', 'lock-out', 'well-cap', 'local-rules', 'stock-water'],
  },
  'lost-prime': {
    name: 'Pump has lost its prime',
    what: 'A jet or booster pump has air where water should be, and cannot draw any.',
    evidenceFor:
      'A pump above ground, low amps, and no rise at all from the first second, mostly after a rest.',
    evidenceAgainst: 'The pump is a submersible one: it stands in the water and needs no prime.',
    firstStep:
      'Switch the pump off at its breaker, leave it off and let it cool for hours. Have a pump contractor check the suction line and the foot valve before it is primed again.',
    cautions: ['hot-panel', 'lock-out', 'scalding', 'contamination', 'well-pit', 'stock-water'],
  },
  'wrong-rotation': {
    name: 'Motor turns the wrong way',
    // That a three-wire motor can run backwards: US Army TM 5-3820-256-24-6, table 4-1.
    what: 'Two lines of a three-phase motor are swapped, or two leads of a three-wire one in its control box. It turns backwards and lifts little.',
    evidenceFor:
      'Poor delivery and low pressure since work on the wiring, the panel or the power company’s line.',
    evidenceAgainst:
      'Nobody worked on the wiring, the panel or the power line, also not after a storm. Or the motor has two wires and no control box.',
    firstStep:
      'Switch the pump off at its breaker and leave it off. Have an electrician or pump contractor check the leads, with the power locked off, and compare pressure and amps.',
    cautions: ['hot-panel', 'switching-off', 'stored-charge', 'electrician', 'lock-out', 'stock-water'],
  },
  sand: {
    name: 'Sand in the water',
    what: 'The well gives sand. It wears the pump and can jam it.',
    evidenceFor: 'Amps that flutter or rise, screens and toilets that clog, faster wear than before.',
    evidenceAgainst: 'The water is clear, also in the first minute of a run.',
    firstStep:
      'Fill a white bucket and let it stand: look for grit. Draw less at a time, and call a well contractor.',
    cautions: ['local-rules'],
  },
  'broken-shaft': {
    name: 'Broken shaft or coupling',
    what: 'The shaft or the coupling between motor and pump has sheared. The motor turns and the pump does not.',
    evidenceFor: 'Low amps and no rise from the first second of each run, also after a long rest.',
    evidenceAgainst: 'The run began well and faded: then it is the well.',
    firstStep:
      'Switch the pump off at its breaker and leave it off. Have a pump contractor measure level and pressure at the well before the pump is pulled.',
    cautions: ['hot-panel', 'lock-out', 'heavy-lift', 'stock-water'],
  },
  'air-lock': {
    name: 'Air lock in the pump',
    // US Army TM 5-3820-256-24-6, table 4-1.
    what: 'Air or gas is trapped in the pump, after a dry run or after it was pulled. It turns and lifts little.',
    evidenceFor: 'Low amps and no rise since the well was drawn down or the pump was set.',
    evidenceAgainst: 'It is the same after the pump has stood for an hour or more.',
    firstStep:
      'Leave the pump off and call your pump contractor. Only for a submersible, and only if the well was just worked on or drawn down: leave it off for an hour or more, then let it run for one minute at most with a tap open. If no water comes, switch it off at its breaker and call.',
    cautions: ['hot-panel', 'scalding', 'lock-out', 'stock-water'],
  },
  'plugged-screen': {
    name: 'Plugged screen or pump intake',
    what: 'Scale, sand or iron bacteria have plugged the screen of the well or the intake of the pump.',
    evidenceFor:
      'Delivery and amps have fallen over months. The water falls further in each run, though it stands as high at rest.',
    evidenceAgainst: 'It came from one day to the next.',
    firstStep:
      'Have a well contractor measure the water level at rest and in a run. A well that draws down further at the same flow has a plugged screen. Else it is the intake or the pump.',
    cautions: ['well-cap', 'contamination', 'local-rules'],
  },
  'water-table-risen': {
    name: 'Water stands higher in the well',
    what: 'The water in the well has risen, in spring or after rain. The pump lifts more water and draws more current. Nothing is wrong.',
    evidenceFor: 'The measured level is higher than at first, or delivery has grown along with the amps.',
    evidenceAgainst: 'The measured level is as at first, or the amps are over the motor’s nameplate.',
    firstStep: 'Compare with the season, and have the water level measured at the next visit.',
    cautions: ['well-cap'],
  },
} as const satisfies Partial<Record<Cause, CauseWords>>;
