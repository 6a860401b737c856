/**
 * Texts about the parts that power, start, protect and monitor the pump. The trade's common
 * knowledge, in our own words.
 */
import type { Part, PartWords } from './part-words.ts';

export const ELECTRIC_PARTS = {
  breaker: {
    name: 'Breaker and disconnect',
    purpose:
      'The breaker or fuses in the panel protect the pump’s wires against overload and short circuit. The disconnect near the pump switches the power off for work and can be locked off.',
    failure:
      'A breaker that trips has a reason: a failing motor or cable, a loose connection, water in a box. A worn breaker trips early. A loose connection gets hot.',
    questions: [
      'Which breaker is it, what size is it, and what wire size is it for?',
      'Where is the disconnect, and can it be locked off?',
      'How are the well and pump grounded, and is there a surge protector?',
    ],
    cautions: ['breaker-once', 'after-reset', 'electrician', 'lock-out', 'flood', 'local-rules'],
  },
  'control-box': {
    name: 'Control box and capacitor',
    purpose:
      'It holds the starting parts of a three-wire, single-phase motor: a relay and a start capacitor, in larger ones a run capacitor and a contactor. It is made for one size of motor. Three leads go down from it: red, yellow and black.',
    failure:
      'With a weak capacitor or relay the motor hums, starts late or not at all, and its overload or breaker trips. A failed run capacitor shows as more amps in every run.',
    questions: [
      'Is this the box that the motor’s manual names?',
      'What are the microfarads and volts of its capacitors, and when were they last measured?',
      'Which lead goes to which terminal, and is that written down?',
    ],
    cautions: ['stored-charge', 'electrician', 'lock-out'],
  },
  overload: {
    name: 'Overload protector',
    purpose:
      'It opens when the motor draws too much for too long or gets too hot. It sits in the motor, in the control box or in a starter. Some reset by themselves once cool; others must be reset by hand.',
    failure:
      'One that trips again and again has a reason, and each try heats the windings. One that does not reset keeps the pump off. One that no longer opens lets the motor burn out.',
    questions: [
      'Where is it, and does it reset by itself?',
      'How many amps is it set to, and what does the motor’s nameplate say?',
      'What should I look for before it is reset?',
    ],
    cautions: ['electrician', 'lock-out', 'only-watches'],
  },
  'pump-protector': {
    name: 'Pump protector',
    purpose:
      'An electronic device that monitors the pump’s current or power. It stops a pump that runs dry, is overloaded or starts too often. Most try again by themselves after a set time.',
    failure:
      'Set wrongly, it stops a good pump or lets a dry one run. While it waits, the pump seems to have no power. Then the pump starts by itself, without warning.',
    questions: [
      'How long does it wait before it tries again, and how often does it try?',
      'Was it calibrated or set while this pump was in good order?',
      'What do its lights or messages mean?',
    ],
    cautions: ['lock-out', 'electrician', 'only-watches'],
  },
  drive: {
    name: 'Variable-speed drive',
    purpose:
      'It feeds the motor a changing frequency, so that the pressure stays even while the use changes. It starts the motor gently and protects it. It needs a tank precharge of its own: its manual gives the value.',
    failure:
      'It stops with a fault code. A failing pressure sensor makes the pressure hunt up and down. Heat, dust, insects and lightning destroy it.',
    questions: [
      'What pressure is it set to, and what precharge does its manual call for?',
      'Which fault codes may I clear, and which ones are for you?',
      'Are motor and cable suitable for a drive, and does it have surge protection?',
      'Does it get cool, clean air?',
    ],
    cautions: ['stored-charge', 'electrician', 'lock-out', 'local-rules'],
  },
  'pressure-switch': {
    name: 'Pressure switch',
    purpose:
      'A spring switch at the tank tee. It starts the pump when the pressure falls to cut-in and stops it at cut-out. 40/60 means cut-in at 40 psi and cut-out at 60 psi. Some have a low-pressure cut-off: it keeps the pump off when there is no water, until somebody resets it with a lever.',
    failure:
      'Burned contacts stick, and the pump does not stop. Or they do not close, and it does not start. A clogged line below it makes it act late. One that chatters burns its contacts.',
    questions: [
      'What pressures is it set to, and who set them, and when?',
      'Does it have a low-pressure cut-off, and how is that reset?',
      'When was the small pipe below it last cleaned?',
      'Which wire goes to which terminal?',
    ],
    cautions: ['lock-out', 'electrician', 'relief-valve', 'freezing', 'well-pit'],
  },
  'current-clamp': {
    name: 'Current clamp',
    purpose:
      'A ring that closes around one wire of the pump’s circuit and reads its current without touching metal. It says when the pump runs, and how hard it works.',
    failure:
      'If it is not fully closed, it reads low. Around both wires of the circuit it reads zero. It also counts any other load on that wire. Zero amps may mean that the clamp came off.',
    questions: [
      'Around which wire does it sit, in which box, and who installed it?',
      'What did a hand-held meter read beside it?',
      'Does anything else run on that wire?',
    ],
    cautions: ['electrician', 'lock-out', 'only-watches'],
  },
  'pressure-transducer': {
    name: 'Pressure transducer',
    purpose:
      'A sensor at the tank tee that turns pressure into a signal, many times a minute. Stillwell calculates the tank’s water, leaks, cut-in and cut-out from it.',
    failure:
      'It drifts, sticks or jumps. Freezing, or water in its plug, destroys it. With its port clogged, the reading does not move while the pump runs.',
    questions: [
      'What is its range?',
      'How did it compare with the gauge, at two pressures?',
      'Is there a valve ahead of it, and can air or sand collect there?',
    ],
    cautions: ['tank-pressure', 'freezing', 'electrician', 'lock-out', 'well-pit'],
  },
  node: {
    name: 'Node',
    purpose:
      'The box that reads clamp and transducer and sends the readings on. While its network connection is down, it keeps them for later.',
    failure:
      'It falls silent: its power supply, its network or the box itself has failed. The well may be fine, but nothing monitors it.',
    questions: [
      'Which circuit powers it? On the pump’s own circuit it loses power with the pump.',
      'How long does it keep readings without a network?',
      'Where is it, and what do its lights mean?',
    ],
    cautions: ['only-watches', 'electrician'],
  },
} as const satisfies Partial<Record<Part, PartWords>>;
