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
    evidenceAgainst:
      'The pressure never reached cut-out in that run. Or the switch does not feel the pressure: the small pipe to it is plugged or frozen.',
    firstStep:
      'Switch the pump off from outside, at its breaker or the main, and not where the tank is. If you cannot, keep everybody away, and call the power company to cut the service. Leave it off. Have an electrician or pump contractor check the switch and the small pipe to it. Do not knock on it or open it.',
    cautions: [
      'hot-panel',
      'lock-out',
      'electrician',
      'relief-valve',
      'scalding',
      'only-watches',
      'well-pit',
      'stock-water',
    ],
  },
  'switch-contacts-open': {
    name: 'Pressure switch does not close',
    // National Driller 86911 has it third, after power and fuses.
    what: 'The contacts of the switch are burnt, dirty or held apart by insects. The pump gets no current.',
    evidenceFor: 'The pressure is under cut-in, there is voltage, and no current flows.',
    evidenceAgainst: 'There is no voltage, or the last run broke off before cut-out.',
    firstStep:
      'Switch the pump off at its breaker and have an electrician or pump contractor check the switch. Do not knock on it or open it: the pump can start.',
    cautions: ['hot-panel', 'lock-out', 'electrician', 'well-pit', 'stock-water'],
  },
  'broken-wire': {
    name: 'Broken wire or splice',
    what: 'The cable to the motor, a splice in the well, a winding or the relay in the control box is open.',
    evidenceFor: 'There is voltage at the switch, it calls, and no current flows at all.',
    evidenceAgainst: 'The motor tries to start.',
    firstStep:
      'Switch the pump off at its breaker and leave it off. Have an electrician or pump contractor measure the windings, with the power locked off.',
    cautions: ['hot-panel', 'live-metal', 'stored-charge', 'electrician', 'lock-out', 'stock-water'],
  },
  'ground-fault': {
    name: 'Insulation fault to ground',
    what: 'Current goes to ground through damaged insulation of the cable, a splice or the motor, often after lightning.',
    evidenceFor: 'The breaker trips as the pump starts, or there was a storm in the last day.',
    evidenceAgainst: 'The insulation was measured and is good. A breaker that stays on proves nothing.',
    firstStep:
      'Leave the breaker off, or switch it off if the panel is dry and away from any metal that gives a tingle. Have an electrician or pump contractor measure the insulation, with the power locked off.',
    cautions: ['live-metal', 'hot-panel', 'stored-charge', 'electrician', 'lock-out', 'stock-water'],
  },
  'switch-out-of-set': {
    name: 'Pressure switch out of adjustment',
    what: 'The springs of the switch have drifted or were turned.',
    evidenceFor: 'Cut-in or cut-out has moved and stays where it is now.',
    evidenceAgainst: 'Both moved together by the same amount: then the gauge may have drifted.',
    firstStep:
      'Compare with the gauge at the tank, but not while the pressure is over cut-out: then keep away from the tank. Have a pump contractor or an electrician set the switch.',
    cautions: ['lock-out', 'electrician', 'well-pit'],
  },
  'switch-chatter': {
    name: 'Pressure switch chatters',
    what: 'The switch closes and opens several times in a second or two. It burns its contacts.',
    evidenceFor: 'Bursts of very short starts at cut-in, then a good run.',
    evidenceAgainst: 'Starts are evenly spaced, minutes apart.',
    firstStep:
      'Have a pump contractor check the tank’s air and the small pipe to the switch this week. They are the usual reasons.',
    cautions: ['lock-out', 'electrician', 'precharge', 'tank-pressure', 'well-pit'],
  },
  'low-pressure-cut-off': {
    name: 'Low-pressure cut-off has tripped',
    what: 'The switch has a cut-off that opens when the pressure falls too low, and stays open until a person resets it.',
    evidenceFor: 'The pressure fell under the cut-off, and since then the pump draws nothing.',
    evidenceAgainst: 'The switch has no such lever, or the pressure never fell that low.',
    firstStep:
      'Find out why the pressure fell before it is reset. If you cannot, leave it and call your pump contractor. Reset it only as its own instructions say.',
    cautions: ['low-pressure-lever', 'lock-out', 'local-rules', 'well-pit'],
  },
  'power-lost': {
    name: 'Power is out',
    what: 'The supply of the site or of the pump has failed.',
    evidenceFor: 'The voltage is gone, or boxes of the same site fell silent together.',
    evidenceAgainst: 'Others on the same supply have power.',
    firstStep:
      'See whether the neighbors have power, and call the power company. Use a generator only through a transfer switch or interlock, and outdoors.',
    cautions: ['downed-line', 'stock-water', 'only-watches', 'lock-out', 'generator', 'generator-load'],
  },
  'breaker-open': {
    name: 'Breaker or disconnect open',
    what: 'The breaker of the pump has tripped, a fuse has blown, or somebody switched it off.',
    evidenceFor: 'No current and no voltage at the pump, while the rest of the site has power.',
    evidenceAgainst: 'There is voltage at the pump.',
    firstStep: `Look at the breaker from outside. ${IF_IT_TRIPPED} If somebody turned it off, leave it until you know why. If it is on, call an electrician as well.`,
    cautions: ['hot-panel', 'breaker-once', 'after-reset', 'electrician', 'lock-out', 'stock-water'],
  },
  'overload-tripping': {
    name: 'Overload trips',
    what: 'The motor’s overload protection opens because the motor is too hot, and closes again when it has cooled.',
    evidenceFor:
      'Runs end in the middle, and the next start comes after some minutes of cooling, again and again.',
    evidenceAgainst: 'Runs end at cut-out.',
    firstStep:
      'Switch the pump off at its breaker and leave it off. Have an electrician or pump contractor measure amps and supply before it runs again.',
    cautions: ['hot-panel', 'stored-charge', 'electrician', 'lock-out', 'stock-water'],
  },
  'protector-waiting': {
    name: 'Pump protector is waiting',
    what: 'A protector found the pump dry or overloaded, switched it off, and will try again by itself.',
    evidenceFor: 'The rest is as long as the protector’s restart time on the card.',
    evidenceAgainst: 'There is no protector, or the rests are of any length.',
    firstStep:
      'Read its display from outside. Keep hands off: the pump will start by itself. Find out why it tripped. If you cannot, leave it and call your pump contractor.',
    cautions: ['lock-out', 'electrician'],
  },
  'lost-leg': {
    name: 'Lost leg (single-phasing)',
    what: 'One of three supply lines is open: a fuse, a joint, or the power company’s line. The lost line can still be live.',
    evidenceFor: 'One line carries no current, and the others carry more than usual.',
    evidenceAgainst: 'The other lines are as ever: then the clamp has come off.',
    firstStep:
      'Turn the pump’s selector or starter to OFF, then switch the pump off at its breaker or disconnect, and leave it off. Call an electrician or the power company.',
    cautions: ['hot-panel', 'switching-off', 'electrician', 'lock-out', 'stock-water'],
  },
  'supply-voltage': {
    name: 'Supply voltage off',
    what: 'The supply is higher or lower than the motor is made for, or has changed.',
    evidenceFor:
      'The measured voltage moved along with the amps; or the amps moved a little, at all pressures, and back again.',
    evidenceAgainst: 'The measured voltage is steady.',
    firstStep:
      'Call the power company first. If its side is right, have an electrician measure the voltage at the pump while it runs.',
    cautions: ['live-metal', 'electrician'],
  },
  generator: {
    name: 'Running on a generator',
    what: 'The site is on a generator. Its voltage and frequency differ, and so do the pump’s amps and delivery.',
    evidenceFor: 'Amps and delivery changed together after a power cut, and went back later.',
    evidenceAgainst: 'There was no power cut.',
    firstStep:
      'It belongs outdoors, and feeds through a transfer switch or interlock. Indoors or near a window: get everybody out. Shut it off only from fresh air; if you cannot, stay out and call 911. Through a cord into an outlet: shut it down, leave the ends of the cord alone, switch the main off and call an electrician. If all is right, read the volts on its own meter while the pump runs, and enter it as expected.',
    cautions: ['hot-panel', 'generator', 'generator-load', 'electrician'],
  },
} as const satisfies Partial<Record<Cause, CauseWords>>;
