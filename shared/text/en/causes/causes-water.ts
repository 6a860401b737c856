/** Words for the causes in tank, pipes and valves. */
import type { Cause } from '../alarms/kinds.ts';
import type { CauseWords } from '../alarms/text-shapes.ts';

export const WATER_CAUSES = {
  'tank-air-lost': {
    name: 'Tank has lost air',
    what: 'Air has left the tank, so it holds little water between cut-out and cut-in.',
    evidenceFor:
      'Runs and rests have both become short over days or weeks, while the pump fills as fast as ever.',
    evidenceAgainst: 'Only the rests are short: then water is running somewhere.',
    firstStep:
      'Have a pump contractor check the precharge with the tank drained, and find out why the air went. A galvanized tank without a bladder has none: have its air volume control, or bleeder and snifter, checked, and the tank drained and filled with air.',
    cautions: ['precharge', 'tank-pressure', 'lock-out', 'well-pit'],
  },
  'bladder-burst': {
    name: 'Burst bladder',
    what: 'The bladder or diaphragm in the tank has torn. Water stands where the air should be.',
    evidenceFor:
      'Runs became short almost at once. The tank is heavy and sounds full to the top. Water at the air valve proves it.',
    evidenceAgainst: 'It came slowly, and the tank holds its charge again once filled.',
    firstStep:
      'Use little water and have a pump contractor replace the tank this week. Pumping air in again does not last.',
    cautions: ['precharge', 'tank-pressure', 'lock-out', 'well-pit'],
  },
  'tank-overcharged': {
    name: 'Tank overcharged',
    what: 'There is more air in the tank than the cut-in allows. It is empty before the pump starts.',
    evidenceFor:
      'The pressure falls gently and then drops off just above cut-in. A galvanized tank without a bladder lets taps spurt air.',
    evidenceAgainst: 'The fall is even, right down to cut-in.',
    firstStep:
      'Have a pump contractor set the precharge about 2 psi (14 kPa) under cut-in, with the tank drained.',
    cautions: ['precharge', 'tank-pressure', 'lock-out', 'well-pit'],
  },
  leak: {
    name: 'Leak',
    what: 'Water leaves by a joint, a valve, a toilet or a pipe in the ground.',
    evidenceFor: 'The pressure falls at an even pace in quiet hours, day and night.',
    evidenceAgainst: 'The pressure holds in quiet hours.',
    firstStep:
      'Close all yard hydrants. Write down the gauge, turn the water heater off and close the valve after the tank for an hour. Read the gauge again, open the valve and turn the heater on. If the pressure held, it is after that valve: call a plumber for the house, your pump contractor for a buried pipe. If it fell, call your pump contractor.',
    cautions: ['buried-cable', 'relief-valve', 'contamination', 'local-rules', 'well-pit'],
  },
  'open-tap': {
    name: 'Tap or valve left open',
    what: 'A tap, hose, trough float or toilet lets water run.',
    evidenceFor: 'The use began at one moment and has been steady since.',
    evidenceAgainst: 'It grew slowly over days, or it goes on with the house valve closed.',
    firstStep:
      'Walk around and close what runs: outdoor taps, hoses, troughs, toilets, drip lines. If nothing runs, it is a leak: call a plumber.',
    cautions: [],
  },
  'broken-pipe': {
    name: 'Broken pipe',
    what: 'A pipe has parted or burst, and water pours out.',
    evidenceFor: 'The pressure fell suddenly and the pump cannot bring it back, although it lifts.',
    evidenceAgainst: 'Pressure builds up as usual with the taps closed.',
    firstStep:
      'Switch the pump off at its breaker and leave it off. Close the valve before the break if there is one. Look for wet ground from a distance, and call your pump contractor.',
    cautions: [
      'hot-panel',
      'buried-cable',
      'lost-pressure',
      'empty-heater',
      'contamination',
      'lock-out',
      'stock-water',
      'well-pit',
    ],
  },
  'drop-pipe-leak': {
    name: 'Leak in the drop pipe',
    what: 'The pipe in the well, from the pump to the top, has a hole or a loose joint.',
    evidenceFor:
      'It leaks with the house valve and all yard hydrants closed, delivery has fallen, and the start of a run raises no pressure for a while.',
    evidenceAgainst:
      'The pressure holds with the house valve closed. This does not count if there is a check valve at the tank: it hides such a leak.',
    firstStep:
      'Have a pump contractor rule out the hydrants, the check valve and the pitless adapter. Only then is the pump pulled.',
    cautions: ['well-cap', 'lock-out', 'heavy-lift', 'contamination', 'well-pit'],
  },
  'pitless-leak': {
    name: 'Leak at the pitless adapter',
    what: 'The seal where the pipe leaves the well casing under the ground leaks.',
    evidenceFor:
      'It leaks with the house valve and all yard hydrants closed; sometimes water can be heard falling in the well.',
    evidenceAgainst:
      'The pressure holds with the house valve closed. This does not count if there is a check valve at the tank: it hides such a leak.',
    firstStep:
      'Have a well contractor look at it. The seal also keeps ground water out: do not drink the water until it is repaired, the well disinfected and a test clean.',
    cautions: ['well-cap', 'well-pit', 'lock-out', 'contamination', 'disinfecting'],
  },
  'check-valve': {
    name: 'Check valve leaks back',
    what: 'The valve that keeps the water up does not close. It runs back into the well when the pump stops.',
    evidenceFor:
      'The pressure falls right after a run with the house valve and all yard hydrants closed, and the next run is slow to raise it.',
    evidenceAgainst:
      'The pressure holds with the house valve closed. This does not count if there is a check valve at the tank: it hides such a leak.',
    firstStep:
      'Close all yard hydrants. Write down the gauge, turn the water heater off and close the house valve for an hour. Read the gauge again, open the valve and turn the heater on. If the pressure fell, have a pump contractor check the valves.',
    cautions: ['lock-out', 'tank-pressure', 'contamination', 'local-rules', 'well-pit'],
  },
  'closed-valve': {
    name: 'Closed or throttled valve',
    what: 'A valve between the well and the taps is shut or nearly so. A check valve between the pressure tank and the water heater does the same to water that swells: it cannot get back into the tank.',
    evidenceFor:
      'Low amps with the pressure held high at once, or no rise behind the valve, since somebody worked there. With the pump at rest: pressure that rises as the heater works, though the tank is sound.',
    evidenceAgainst: 'Water flows as ever with a tap wide open.',
    firstStep:
      'Look at the valves on both sides of the tank. If one is closed, switch the pump off at its breaker first. If the pump may have run against it, leave the valve to your pump contractor. Else ask who closed it, for somebody may be at work behind it, and with the pump off open it slowly. For a check valve before the heater, have a plumber fit an expansion tank, and leave the check valve in.',
    cautions: ['hot-panel', 'scalding', 'relief-valve', 'lock-out', 'well-pit'],
  },
  'blocked-nipple': {
    name: 'Blocked line to the switch or gauge',
    what: 'The small pipe to the pressure switch, or the port of the gauge, is clogged with rust or scale. What is behind it feels the pressure late or not at all.',
    evidenceFor:
      'Cut-in and cut-out wander while the gauge follows each run smoothly: then it is the switch’s pipe. Or the gauge itself moves late, in jumps or not at all.',
    evidenceAgainst: 'Cut-in and cut-out are where they were, and the gauge follows each run.',
    firstStep:
      'If the pump does not stop at its usual pressure, switch it off from outside, at its breaker or the main, and not where the tank is. If you cannot, keep everybody away, and call the power company to cut the service. Leave it off until a pump contractor or an electrician has cleaned or replaced the line.',
    cautions: [
      'hot-panel',
      'lock-out',
      'electrician',
      'tank-pressure',
      'relief-valve',
      'well-pit',
      'stock-water',
    ],
  },
  frozen: {
    name: 'Frozen line',
    what: 'Ice stands in a pipe, or in the small line to the switch or gauge.',
    evidenceFor: 'It is freezing there, and the pressure stands still while the pump runs or water is drawn.',
    evidenceAgainst: 'It is well above freezing.',
    firstStep:
      'If the pump did not stop at cut-out, switch it off from outside, at its breaker or the main. Stay out of the room of the tank, and call your pump contractor. Else switch the pump off at its breaker. Open the nearest tap, and warm the room slowly from that side, never with a flame. Look for bursts before the pump is switched on. For a burst call your pump contractor.',
    cautions: [
      'hot-panel',
      'freezing',
      'relief-valve',
      'tank-pressure',
      'lock-out',
      'electrician',
      'well-pit',
    ],
  },
  'heat-expansion': {
    name: 'Water heating up',
    what: 'A water heater warms water, the water swells, and the pressure rises with the pump at rest. On a well the pressure tank takes that up: behind a sound one it is a few psi.',
    evidenceFor:
      'The pressure rises slowly with no current, mostly after hot water was used, and no further than the tank on the card lets it.',
    evidenceAgainst:
      'It rises while the pump runs, or with the heater off, or further than the tank on the card lets it.',
    firstStep:
      'Look at the water heater from a distance. If it rumbles, steams or blows, or hot water came as steam: open no tap, keep away and call a plumber, or 911. Else open a cold tap for a moment: the pressure drops at once. Have a pump contractor check the precharge of the pressure tank before anything is added.',
    cautions: ['runaway-heater', 'relief-valve', 'tank-pressure', 'precharge', 'lock-out', 'well-pit'],
  },
  'plugged-filter': {
    name: 'Plugged filter',
    what: 'A filter or strainer before the tank is full. Less water passes at the same pressure.',
    evidenceFor: 'Fills have become slower, and the amps have fallen a little.',
    evidenceAgainst: 'There is no filter before the tank, or it has just been changed.',
    firstStep:
      'Look at the filter’s own gauges or date. Switch the pump off at its breaker, close the valves on both sides, and let the pressure off until the gauge reads zero. Only then change it, as its instructions say. Open both valves again before you switch the pump on. Without a valve or a gauge there, have a pump contractor do it.',
    cautions: ['hot-panel', 'filter-change', 'tank-pressure', 'lock-out', 'contamination', 'well-pit'],
  },
  'store-empty': {
    name: 'Storage tank empty or shut off',
    what: 'The storage tank or cistern that a booster pump draws from is empty, or its valve is closed.',
    evidenceFor: 'A booster pump that lifts nothing, or a measured level near the bottom.',
    evidenceAgainst: 'The measured level in the storage tank is well above its outlet.',
    firstStep:
      'Switch the pump off at its breaker and leave it off. Look from the ground: is there water in the storage tank, and is the valve at its outlet open? If not, have it filled, and the valve opened with the pump off and cold. A booster that ran dry is primed before it starts: call your pump contractor.',
    cautions: ['hot-panel', 'closed-space', 'lock-out', 'scalding', 'well-pit', 'stock-water'],
  },
  'hydrant-leak': {
    name: 'Yard hydrant or buried line leaks',
    // National Driller 87290.
    what: 'A frost-proof hydrant that does not close, or a line in the ground, loses water ahead of the house valve.',
    evidenceFor:
      'The pressure falls with the house valve closed. The ground is wet at a hydrant or along the line.',
    evidenceAgainst: 'The pressure holds once each hydrant is pushed fully down.',
    firstStep:
      'Switch the pump off at its breaker. Push each yard hydrant fully down, but leave one alone that stands in wet ground or gives a tingle. If the pressure still falls, look for wet ground along the buried line, without stepping on it. For wet ground or a falling pressure leave the pump off, and call your pump contractor.',
    cautions: ['hot-panel', 'live-metal', 'buried-cable', 'contamination', 'local-rules', 'stock-water'],
  },
  'tank-too-small': {
    name: 'Tank too small for this pump',
    // One minute: a motor maker's application manual; The Driller 85040.
    what: 'The tank is sound, and the pump fills it in less than a minute. Pumps are made for runs of a minute or more.',
    evidenceFor: 'Runs have been this short since the first day, and the tank’s air is as it should be.',
    evidenceAgainst: 'Runs were longer before: then the tank has changed.',
    firstStep: 'Have a pump contractor check the tank’s air and size it for the pump.',
    cautions: ['precharge', 'tank-pressure', 'lock-out', 'well-pit'],
  },
} as const satisfies Partial<Record<Cause, CauseWords>>;
