/** Words for the alarms about pressure, tank, store, level, leaks and frost. */
import type { AlarmKind } from './kinds.ts';
import type { AlarmWords } from './words.ts';

export const WATER_ALARMS = {
  'no-water': {
    title: 'The taps run dry',
    means:
      'There is next to no pressure left in the pipes. Without pressure dirty water can be drawn in through leaks and hoses.',
    firstStep:
      'Close taps and hoses. Look at the breaker, and reset it once if it has tripped. When the water is back, let it run clear; if it is cloudy or a pipe broke, have it tested before it is drunk.',
    canBeWrong: 'A drained system, a visit, or a pressure gauge that was shut off looks the same.',
    cautions: ['breaker-once', 'electrician', 'contamination', 'stock-water'],
  },
  'store-low': {
    title: 'Storage tank or trough is low',
    means:
      'The store is lower than it ever is. What is drawn is more than what is pumped, or nothing is pumped.',
    firstStep:
      'Look at the store and its float. See whether the pump runs. Give stock other water if it is nearly empty.',
    canBeWrong: 'A hot week or more stock can draw it down in a healthy way.',
    cautions: ['stock-water', 'breaker-once'],
  },
  'over-pressure': {
    title: 'Pressure too high',
    means:
      'The pressure is well over cut-out, or close to the relief valve. While the pump runs, the switch is not stopping it. While it rests, water heating up in a closed system may be the reason.',
    firstStep:
      'Open a tap at once to let pressure off. If the pump is running, switch it off at its breaker. Then call.',
    canBeWrong: 'A gauge that drifts reads too high. Compare with the dial at the tank.',
    cautions: ['relief-valve', 'tank-pressure', 'lock-out', 'only-watches'],
  },
  'level-low': {
    title: 'Water in the well is low',
    means: 'The well’s own level comes near the pump. If it gets there the pump runs dry.',
    firstStep: 'Draw less for some days and spread the use. Watch how far it recovers overnight.',
    canBeWrong: 'A level sensor that slipped or fouled reads low. The set depth on the card may be wrong.',
    cautions: ['local-rules'],
  },
  'tank-air-lost': {
    title: 'Pressure tank has lost air',
    means:
      'The tank holds less water between cut-out and cut-in than its air charge on the card would give. The pump starts more often for the same use.',
    firstStep:
      'Have the precharge checked, with the tank drained. Do not just pump air in: find out why it was lost.',
    canBeWrong:
      'A wrong volume, precharge or altitude on the card gives the same picture. So does a tap that always runs.',
    cautions: ['precharge', 'tank-pressure', 'lock-out'],
  },
  'tank-overcharged': {
    title: 'Pressure tank has too much air',
    means:
      'The air charge is over cut-in. The tank is empty before the pump starts: the pressure drops off suddenly, and taps spit or stop for a moment.',
    firstStep:
      'Have the precharge checked, with the tank drained. It belongs about 2 psi (14 kPa) under cut-in.',
    canBeWrong: 'A switch whose cut-in was set lower does the same. A blocked pipe to the gauge does too.',
    cautions: ['precharge', 'tank-pressure', 'lock-out'],
  },
  leak: {
    title: 'Water is leaking away',
    means:
      'The pressure falls while nobody draws water. Something leaks: in the house, in the ground, or back down the well.',
    firstStep:
      'Listen at toilets and look at outdoor taps. Then close the valve after the tank for an hour: if the pressure still falls, it leaks on the well’s side, else in the house.',
    canBeWrong: 'A slow steady use looks the same: a trough float that weeps, a drip line, a humidifier.',
    cautions: ['contamination', 'local-rules'],
  },
  'freeze-risk': {
    title: 'Pump house near frost',
    means:
      'It is about to freeze where the pump, the tank or the switch stands. Ice bursts pipes, and a frozen switch line can stop or stick the pump.',
    firstStep:
      'Close doors and vents. See that the frost heater works. Let a tap trickle if nothing else helps.',
    canBeWrong: 'A sensor by a door or on the wall reads colder than the pipes are.',
    cautions: ['freezing', 'electrician'],
  },
  'switch-shift': {
    title: 'Pressure switch points have moved',
    means:
      'Cut-in or cut-out is no longer where the card or the baseline has it. Switches drift as they age, or somebody set it.',
    firstStep: 'Ask whether the switch was set. If so, change the card. If not, have the switch looked at.',
    canBeWrong: 'When both points move together, the gauge may have drifted and not the switch.',
    cautions: ['lock-out', 'electrician'],
  },
} as const satisfies Partial<Record<AlarmKind, AlarmWords>>;
