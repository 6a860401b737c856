/** Words for the alarms about pressure, tank, store, level, leaks and frost. */
import { IF_IT_TRIPPED } from '../cautions.ts';
import type { AlarmKind } from './kinds.ts';
import type { AlarmWords } from './text-shapes.ts';

export const WATER_ALARMS = {
  'no-water': {
    title: 'The taps run dry',
    means:
      'There is next to no pressure left in the pipes. Without pressure dirty water can be drawn in through leaks and hoses.',
    firstStep: `Close taps and hoses. If the pump runs without water, switch it off at its breaker. If it rests, look at the breaker. ${IF_IT_TRIPPED} When water is back, let it run clear. Cloudy, or a pipe broke: test before drinking.`,
    canBeWrong:
      'A system drained on purpose, a gauge whose little valve was shut, or a gauge wire that broke looks the same. If a tap runs as ever, it is the gauge. Enter a visit before draining.',
    needs: 'Pressure, from a gauge that has shown 20 psi (140 kPa) before.',
    cautions: ['breaker-once', 'electrician', 'contamination', 'flood', 'stock-water'],
  },
  'store-low': {
    title: 'Storage tank or trough is low',
    means:
      'The store is lower than it ever is. What is drawn is more than what is pumped, or nothing is pumped.',
    firstStep:
      'See from outside whether the pump runs and the float moves. Never climb in, and never lean in alone: look through the hatch from a guarded stand. Haul water if stock depend on it. Call your pump contractor today.',
    canBeWrong:
      'A hot week, more stock, or a store that is being cleaned draws it down in a healthy way. A float sensor that hangs or is fouled reads low. Compare with the water as you see it from outside.',
    needs: 'The depth in the store, and at least four days of it.',
    cautions: ['closed-space', 'stock-water', 'breaker-once'],
  },
  'over-pressure': {
    title: 'Pressure too high',
    means:
      'The pressure is well over cut-out, or close to the relief valve. While the pump runs, the switch is not stopping it. While it rests, water that a heater warms swells: a sound pressure tank takes that up, and one without air does not.',
    firstStep:
      'Keep away from the tank. If the pump is running, switch it off at its breaker. Open a cold tap in the house or yard to let pressure off. Then call.',
    canBeWrong:
      'A gauge that drifts or a wrong scale reads too high: compare with the dial at the tank. At rest, behind a very small tank, water that warms raises it in a harmless way at first. A relief setting that is wrong on the card tells it too early.',
    needs: 'Pressure, and a cut-out that was learnt or is on the card, or the relief valve’s setting.',
    cautions: ['relief-valve', 'tank-pressure', 'lock-out', 'well-pit', 'only-watches'],
  },
  'level-low': {
    title: 'Water in the well is low',
    means: 'The well’s own level comes near the pump. If it gets there the pump runs dry.',
    firstStep: 'Draw less for some days and spread the use. Watch how far it recovers overnight.',
    canBeWrong:
      'A level sensor that slipped, fouled or was hung anew reads low. A wrong zero looks the same. After a dry season a well may live at such a level for weeks without harm. Then only the drawing down matters.',
    needs: 'The water level over the pump’s intake.',
    cautions: ['local-rules'],
  },
  'tank-air-lost': {
    title: 'Pressure tank has lost air',
    means:
      'The tank holds less water between cut-out and cut-in than its air charge on the card would give. The pump starts more often for the same use.',
    firstStep:
      'Have the precharge checked, with the pump switched off and the tank drained. Do not just pump air in: find out why it was lost.',
    canBeWrong:
      'A wrong volume, precharge or altitude on the card gives the same picture from the first day. A tank that was changed for a smaller one does too. From pressure alone, a burst bladder and lost air can’t be told apart.',
    needs: 'Current and pressure, with fills learnt or the tank’s volume and air charge on the card.',
    cautions: ['precharge', 'tank-pressure', 'lock-out', 'well-pit'],
  },
  'tank-overcharged': {
    title: 'Pressure tank has too much air',
    means:
      'The air charge is over cut-in. The tank is empty before the pump starts: the pressure drops off suddenly, and taps spit or stop for a moment.',
    firstStep:
      'Have the precharge checked, with the pump switched off and the tank drained. It belongs about 2 psi (14 kPa) under cut-in.',
    canBeWrong:
      'A switch whose cut-in was set lower does the same, and so does a gauge that reads low or a wrong tank on the card. A short dip just at cut-in can also be a large tap opened at that moment.',
    needs: 'Current and pressure, with the tank’s volume and air charge on the card.',
    cautions: ['precharge', 'tank-pressure', 'lock-out', 'well-pit'],
  },
  leak: {
    title: 'Water is leaking away',
    means:
      'The pressure falls while nobody draws water. Something leaks: in the house, in the ground, or back down the well.',
    firstStep:
      'Listen at toilets and look at outdoor taps. Then close the valve after the tank for an hour: if the pressure still falls, it leaks on the well’s side, else in the house.',
    canBeWrong:
      'A trickle left on against frost, a toilet, a drip line, a trough float that weeps or a humidifier looks the same. Without the tank on the card, the amount is not known. Which side of the house valve it is on can’t be seen from here.',
    needs:
      'Pressure and current: half an hour of quiet a day, on two or three days running. The tank on the card makes it litres.',
    cautions: ['well-pit', 'contamination', 'local-rules'],
  },
  'freeze-risk': {
    title: 'Pump house near frost',
    means:
      'It is about to freeze where the pump, the tank or the switch stands. Ice bursts pipes, and a frozen switch line can stop or stick the pump.',
    firstStep:
      'Close doors and vents. See from outside that the frost heater works. If you let a tap trickle, enter it as expected, or it will look like a leak.',
    canBeWrong:
      'A sensor by a door, on an outer wall or outside reads colder than the pipes are. After a week of frosts without harm it is taken to hang outside, and nothing more is said.',
    needs: 'Temperature of the air at the pump.',
    cautions: ['freezing', 'electrician'],
  },
  'switch-shift': {
    title: 'Pressure switch points have moved',
    means:
      'Cut-in or cut-out is no longer where the card or the baseline has it. Switches drift as they age, or somebody set it.',
    firstStep: 'Ask whether the switch was set. If so, change the card. If not, have the switch looked at.',
    canBeWrong:
      'When both points move together, the gauge may have drifted and not the switch. Somebody may have set it on purpose. Readings more than some seconds apart blur both points by some psi.',
    needs: 'Current and pressure, and a baseline or the switch’s setting on the card.',
    cautions: ['lock-out', 'electrician', 'well-pit'],
  },
} as const satisfies Partial<Record<AlarmKind, AlarmWords>>;
