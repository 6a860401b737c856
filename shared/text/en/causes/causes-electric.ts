/** Words for the causes in switch, protection and supply. */
import { IF_IT_TRIPPED } from '../cautions.ts';
import type { Cause } from '../alarms/kinds.ts';
import type { CauseWords } from '../alarms/text-shapes.ts';

export const ELECTRIC_CAUSES = {
  'switch-contacts-stuck': {
    name: 'Pressure switch stuck closed',
    what: 'The contacts of the switch have welded or burnt together. The pump does not stop at cut-out.',
    evidenceFor:
      'The pump ran past its cut-out, and the pressure went on rising or stood at the pump’s limit.',
    evidenceAgainst: 'The pressure never reached cut-out in that run.',
    firstStep: 'Switch the pump off at its breaker and have the switch replaced. Do not tap or open it.',
    cautions: ['lock-out', 'electrician', 'relief-valve', 'only-watches', 'well-pit'],
  },
  'switch-contacts-open': {
    name: 'Pressure switch does not close',
    // National Driller 86911 has it third, after power and fuses.
    what: 'The contacts of the switch are burnt, dirty or held apart by insects. The pump gets no current.',
    evidenceFor: 'The pressure is under cut-in, there is voltage, and no current flows.',
    evidenceAgainst: 'There is no voltage, or the last run broke off before cut-out.',
    firstStep:
      'Switch the pump off at its breaker and have an electrician or pump contractor check the switch. Do not tap or open it: the pump can start.',
    cautions: ['lock-out', 'electrician', 'well-pit', 'stock-water'],
  },
  'broken-wire': {
    name: 'Broken wire or splice',
    what: 'The cable to the motor, a splice in the well, a winding or the relay in the control box is open.',
    evidenceFor: 'There is voltage at the switch, it calls, and no current flows at all.',
    evidenceAgainst: 'The motor tries to start.',
    firstStep:
      'Switch the pump off at its breaker. Have an electrician or pump contractor measure the windings, with the power locked off.',
    cautions: ['electrician', 'lock-out', 'stock-water'],
  },
  'ground-fault': {
    name: 'Insulation fault to ground',
    what: 'Current goes to ground through damaged insulation of the cable, a splice or the motor, often after lightning.',
    evidenceFor: 'The breaker trips as the pump starts, or there was a storm in the last day.',
    evidenceAgainst: 'The breaker is on.',
    firstStep:
      'Leave the breaker off. Have an electrician or pump contractor measure the insulation, with the power locked off.',
    cautions: ['electrician', 'lock-out', 'stock-water'],
  },
  'switch-out-of-set': {
    name: 'Pressure switch out of set',
    what: 'The springs of the switch have drifted or were turned.',
    evidenceFor: 'Cut-in or cut-out has moved and stays where it is now.',
    evidenceAgainst: 'Both moved together by the same amount: then the gauge may have drifted.',
    firstStep: 'Compare with the dial at the tank. Have a pump contractor or an electrician set it.',
    cautions: ['lock-out', 'electrician', 'well-pit'],
  },
  'switch-chatter': {
    name: 'Pressure switch chatters',
    what: 'The switch closes and opens several times in a second or two. It burns its contacts.',
    evidenceFor: 'Bursts of very short starts at cut-in, then a good run.',
    evidenceAgainst: 'Starts are evenly spaced, minutes apart.',
    firstStep: 'Have the tank’s air and the line to the switch checked. They are the usual reasons.',
    cautions: ['lock-out', 'electrician', 'precharge', 'well-pit'],
  },
  'low-pressure-cut-off': {
    name: 'Low-pressure cut-off has tripped',
    what: 'The switch has a cut-off that opens when the pressure falls too low, and stays open until a person resets it.',
    evidenceFor: 'The pressure fell under the cut-off, and since then the pump draws nothing.',
    evidenceAgainst: 'The switch has no such lever, or the pressure never fell that low.',
    firstStep: 'Find out why the pressure fell before it is reset, and reset it as its own instructions say.',
    cautions: ['lock-out', 'local-rules', 'well-pit'],
  },
  'power-lost': {
    name: 'Power is out',
    what: 'The supply of the site or of the pump has failed.',
    evidenceFor: 'The voltage is gone, or boxes of the same site fell silent together.',
    evidenceAgainst: 'Others on the same supply have power.',
    firstStep:
      'See whether the neighbors have power, and call the power company. Use a generator only through a transfer switch or interlock, and outdoors.',
    cautions: ['stock-water', 'only-watches', 'generator'],
  },
  'breaker-open': {
    name: 'Breaker or disconnect open',
    what: 'The breaker of the pump has tripped, a fuse has blown, or somebody switched it off.',
    evidenceFor: 'No current and no voltage at the pump, while the rest of the site has power.',
    evidenceAgainst: 'There is voltage at the pump.',
    firstStep: `Look at the breaker from outside. ${IF_IT_TRIPPED}`,
    cautions: ['breaker-once', 'electrician', 'lock-out'],
  },
  'overload-tripping': {
    name: 'Overload trips',
    what: 'The motor’s overload protection opens because the motor is too hot, and closes again when it has cooled.',
    evidenceFor:
      'Runs end in the middle, and the next start comes after some minutes of cooling, again and again.',
    evidenceAgainst: 'Runs end at cut-out.',
    firstStep:
      'Switch the pump off. Have an electrician or pump contractor measure amps and supply before it goes on.',
    cautions: ['electrician', 'lock-out'],
  },
  'protector-waiting': {
    name: 'Pump protector is waiting',
    what: 'A protector found the pump dry or overloaded, switched it off, and will try again by itself.',
    evidenceFor: 'The rest is as long as the protector’s restart time on the card.',
    evidenceAgainst: 'There is no protector, or the rests are of any length.',
    firstStep:
      'Read its display from outside. Keep hands off: the pump will start by itself. Find out why it tripped.',
    cautions: ['lock-out', 'electrician'],
  },
  'lost-leg': {
    name: 'One line lost',
    what: 'One of three supply lines is broken: a fuse, a joint, or the power company’s line.',
    evidenceFor: 'One line carries nothing and the others more than usual.',
    evidenceAgainst: 'The other lines are as ever: then the clamp has come off.',
    firstStep: 'Switch the pump off at its disconnect. Call the power company or an electrician.',
    cautions: ['electrician', 'lock-out'],
  },
  'supply-voltage': {
    name: 'Supply voltage off',
    what: 'The supply is higher or lower than the motor is made for, or has changed.',
    evidenceFor:
      'The measured voltage moved along with the amps; or the amps moved a little, at all pressures, and back again.',
    evidenceAgainst: 'The measured voltage is steady.',
    firstStep: 'Have an electrician measure the voltage at the pump while it runs.',
    cautions: ['electrician'],
  },
  generator: {
    name: 'Running on a generator',
    what: 'The site is on a generator. Its voltage and frequency differ, and so do the pump’s amps and delivery.',
    evidenceFor: 'Amps and delivery changed together after a power cut, and went back later.',
    evidenceAgainst: 'There was no power cut.',
    firstStep:
      'See from outside that it stands outdoors, away from doors and windows, and feeds the pump through a transfer switch or interlock. Read the volts on its own meter while the pump runs. Then enter it as expected.',
    cautions: ['electrician', 'generator'],
  },
} as const satisfies Partial<Record<Cause, CauseWords>>;
