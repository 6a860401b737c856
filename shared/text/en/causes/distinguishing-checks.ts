/**
 * How a person tells causes apart that readings alone cannot: a look, a question, a valve to close,
 * all of them safe for anyone. Each parts two sides; it is of use where a cause of either side is
 * named.
 */
import type { Caution } from '../cautions.ts';
import type { Cause, WeighedCause } from '../alarms/kinds.ts';

export interface DistinguishingCheck {
  sideA: readonly Cause[];
  sideB: readonly Cause[];
  /** Whole sentences: what to do, and what it then says. */
  how: string;
  /** What must be said along with it. */
  cautions?: readonly Caution[];
}

const HOUSE_SIDE: readonly Cause[] = ['leak', 'open-tap', 'softener-regenerating'];
const WELL_SIDE: readonly Cause[] = ['check-valve', 'drop-pipe-leak', 'pitless-leak'];
const AHEAD_OF_HOUSE: readonly Cause[] = [...WELL_SIDE, 'hydrant-leak'];
const TANK: readonly Cause[] = ['tank-air-lost', 'bladder-burst'];
const SUPPLY: readonly Cause[] = ['power-lost', 'breaker-open'];
const MOTOR: readonly Cause[] = ['failing-motor', 'overload-tripping', 'stuck-rotor', 'failing-capacitor'];

/** In the order of how much each settles. */
export const DISTINGUISHING_CHECKS: readonly DistinguishingCheck[] = [
  {
    sideA: HOUSE_SIDE,
    sideB: AHEAD_OF_HOUSE,
    how: 'Push each yard hydrant fully down. Turn the water heater off and close the valve between the tank and the house for an hour, when nobody needs water. If the pressure at the tank then holds, the water goes on the house’s side. If it still falls, it goes ahead of that valve. A check valve at the tank holds the pressure too.',
    cautions: ['well-pit'],
  },
  {
    sideA: ['hydrant-leak'],
    sideB: WELL_SIDE,
    how: 'Push each yard hydrant fully down, and walk along the buried line for wet ground. If there is a valve between the well and the tank, close it with the pump switched off. If the pressure at the tank then holds, water goes on the well’s side of it.',
    cautions: ['well-pit', 'lock-out'],
  },
  {
    sideA: ['store-empty'],
    sideB: ['low-well', 'lost-prime', 'closed-valve', 'worn-pump', 'broken-pipe'],
    how: 'Look at the storage tank from outside. If it is empty, or the valve at its outlet is closed, the pump is not to blame.',
    cautions: ['closed-space', 'well-pit'],
  },
  {
    sideA: SUPPLY,
    sideB: MOTOR,
    how: 'See whether other lights and the neighbours have power, and look at the pump’s breaker from outside. If both are as they should be, it is the motor, its switch or its protection.',
  },
  {
    sideA: ['clamp-off'],
    sideB: [
      ...SUPPLY,
      ...MOTOR,
      'worn-pump',
      'low-well',
      'heat-expansion',
      'habit-changed',
      'lost-leg',
      'supply-voltage',
    ],
    how: 'Open a tap until the pump should start. If water comes and goes on as ever, the pump is well and its clamp is not.',
  },
  {
    sideA: ['transducer-fault'],
    sideB: [
      'switch-out-of-set',
      'heat-expansion',
      'switch-contacts-stuck',
      'low-well',
      'broken-pipe',
      'power-lost',
      'blocked-nipple',
      'bad-card',
    ],
    how: 'Read the dial at the tank and compare. If it says what stands here, the sensor is right.',
    cautions: ['well-pit'],
  },
  {
    sideA: ['low-well'],
    sideB: ['worn-pump', 'closed-valve', 'broken-pipe', 'drop-pipe-leak', 'lost-prime'],
    how: 'Let the well rest for some hours with the pump switched off at its breaker, and then watch one run. If it starts as well as ever and fades, it is the well. If it is weak from the first minute, it is the pump, a valve or a pipe. Where no water comes, switch it off at once.',
  },
  {
    sideA: ['closed-valve'],
    sideB: ['worn-pump', 'lost-prime', 'broken-pipe', 'failing-motor', 'supply-voltage'],
    how: 'Look at the valve handles between well and tank: a lever across the pipe is closed. Ask who was there last.',
    cautions: ['well-pit'],
  },
  {
    sideA: TANK,
    sideB: [...HOUSE_SIDE, ...WELL_SIDE, 'habit-changed'],
    how: 'Close all taps and watch. If the pump rests for as long as nothing is drawn, but starts after a little water is drawn, it is the tank. If it starts with nothing drawn, water is going somewhere.',
  },
  {
    sideA: TANK,
    sideB: ['heat-expansion', 'closed-valve', 'transducer-fault'],
    how: 'Open a cold tap until the pump starts, and close it again. Once the pump rests, tap the tank from top to bottom. If it sounds full all the way up, it has lost its air. If its upper part sounds hollow, look for a closed valve or a check valve between it and the water heater.',
    cautions: ['well-pit'],
  },
  {
    sideA: ['broken-pipe'],
    sideB: ['open-tap', 'worn-pump', 'switch-contacts-stuck'],
    how: 'Walk along the pipe and look for wet ground or the sound of water, with all taps closed. Stay out of pits.',
    cautions: ['well-pit'],
  },
  {
    sideA: ['habit-changed'],
    sideB: [...HOUSE_SIDE, ...SUPPLY, ...TANK, 'low-well', 'failing-motor'],
    how: 'Ask who lives there and who looks after the stock and the garden. If it was meant, enter it as expected.',
  },
  {
    sideA: ['supply-voltage', 'generator'],
    sideB: ['failing-motor', 'worn-pump', 'sand', 'failing-capacitor', 'low-well', 'lost-leg'],
    how: 'Have an electrician measure the voltage at the pump’s disconnect while it runs. At its plate’s value the supply is not to blame.',
  },
  {
    sideA: ['frozen'],
    sideB: ['blocked-nipple', 'transducer-fault', ...SUPPLY, 'switch-contacts-stuck', 'low-well'],
    how: 'Feel the pipes outside any box, and look at a thermometer there. What thaws and then works was frozen.',
    cautions: ['well-pit', 'freezing'],
  },
  {
    sideA: ['switch-contacts-stuck', 'switch-out-of-set', 'blocked-nipple'],
    sideB: ['broken-pipe', 'open-tap', 'leak', 'worn-pump', 'low-well', 'overload-tripping'],
    how: 'Read the pressure while the pump runs. If it is over the cut-out and the pump runs on, the switch does not stop it. If it stays under, the water goes elsewhere or does not come.',
    cautions: ['well-pit'],
  },
  {
    sideA: ['switch-contacts-stuck'],
    sideB: ['blocked-nipple', 'switch-out-of-set'],
    how: 'This is told inside the switch, by an electrician or a pump contractor, with the power locked off.',
    cautions: ['lock-out', 'well-pit'],
  },
  {
    sideA: ['bad-card'],
    sideB: ['tank-air-lost', 'bladder-burst', 'switch-out-of-set', 'supply-voltage'],
    how: 'Compare the card with the papers, with plates that can be read from outside, and with what was last set. Open nothing for it.',
  },
];

/** More than three things to try are no help. */
const MAX_CHECKS = 3;

/** What parts the named causes: those come first that part the likelier ones. */
export function distinguishingChecks(causes: readonly WeighedCause[]): DistinguishingCheck[] {
  const weightOf = (side: readonly Cause[]): number =>
    causes.filter(({ cause }) => side.includes(cause)).reduce((sum, { weight }) => sum + weight, 0);
  return DISTINGUISHING_CHECKS.map((telling) => ({
    telling,
    parts: Math.min(weightOf(telling.sideA), weightOf(telling.sideB)),
  }))
    .filter(({ parts }) => parts > 0)
    .toSorted((a, b) => b.parts - a.parts)
    .slice(0, MAX_CHECKS)
    .map(({ telling }) => telling);
}
