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
    how: 'Push each yard hydrant fully down. Turn the water heater off and close the valve between the tank and the house for an hour, when nobody needs water. If the pressure at the tank holds, the water goes on the house’s side. If it falls, it goes ahead of that valve. A check valve at the tank holds the pressure too. Then open the valve and turn the heater on again.',
    cautions: ['well-pit'],
  },
  {
    sideA: ['hydrant-leak'],
    sideB: WELL_SIDE,
    how: 'Switch the pump off at its breaker. Push each yard hydrant fully down, but leave one alone that stands in wet ground or gives a tingle. Look for wet ground along the buried line, without stepping on it. If there is a valve between the well and the tank, close it while the pump is off. If the pressure at the tank then holds, water goes on the well’s side of it. Open the valve before the pump is switched on.',
    cautions: ['hot-panel', 'live-metal', 'buried-cable', 'well-pit', 'lock-out'],
  },
  {
    sideA: ['store-empty'],
    sideB: ['low-well', 'lost-prime', 'closed-valve', 'worn-pump', 'broken-pipe'],
    how: 'Look at the storage tank from the ground. If it is empty, or the valve at its outlet is closed, the pump is not to blame. Leave the pump off until the tank is filled.',
    cautions: ['closed-space', 'scalding', 'lock-out', 'well-pit', 'stock-water'],
  },
  {
    sideA: SUPPLY,
    sideB: MOTOR,
    how: 'See whether other lights and the neighbors have power, and look at the pump’s breaker from outside. If both are as they should be, it is the motor, its switch or its protection: call your pump contractor.',
    cautions: ['hot-panel', 'breaker-once', 'after-reset', 'electrician'],
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
    how: 'Not where the first step leaves the pump off. If the water heater rumbles or steams, keep away and open no tap. Else open a cold tap until the pump should start. If water comes and goes on as ever, the pump is sound and its clamp is not. The electrician or pump contractor who fitted it checks it.',
    cautions: ['runaway-heater', 'electrician'],
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
    how: 'Not while the pressure here is over cut-out: then keep away from the tank, and leave this to your pump contractor. Else read the gauge at the tank and compare. If it reads the same, the sensor is right.',
    cautions: ['relief-valve', 'tank-pressure', 'well-pit'],
  },
  {
    sideA: ['low-well'],
    sideB: ['worn-pump', 'closed-valve', 'broken-pipe', 'drop-pipe-leak', 'lost-prime'],
    how: 'Let the well rest for some hours with the pump switched off at its breaker. Then have a pump contractor watch one run. If it starts as well as ever and fades, it is the well. If it is weak from the first minute, it is the pump, a valve or a pipe. If no water comes within a minute, it is switched off at once.',
    cautions: ['hot-panel', 'scalding', 'lock-out', 'stock-water'],
  },
  {
    sideA: ['low-well', 'closed-valve'],
    sideB: ['lost-prime', 'broken-shaft', 'air-lock'],
    how: 'Leave the pump off, and have a pump contractor measure level and pressure at the well. Low amps and no rise look the same from here for a low well, lost prime, an air lock, a broken shaft and a closed valve.',
    cautions: ['scalding', 'well-cap', 'well-pit', 'lock-out', 'stock-water'],
  },
  {
    sideA: ['closed-valve'],
    sideB: ['worn-pump', 'lost-prime', 'broken-pipe', 'failing-motor', 'supply-voltage'],
    how: 'Look at the valve handles between well and tank: a lever across the pipe is closed. Leave it so, and ask who was there last.',
    cautions: ['scalding', 'well-pit'],
  },
  {
    sideA: TANK,
    sideB: [...HOUSE_SIDE, ...WELL_SIDE, 'habit-changed'],
    how: 'Close all taps and watch. If the pump rests for as long as nothing is drawn, but starts after a little water is drawn, it is the tank. If it starts with nothing drawn, water is going somewhere.',
  },
  {
    sideA: TANK,
    sideB: ['heat-expansion', 'closed-valve', 'transducer-fault'],
    how: 'Not where the first step leaves the pump off. If the water heater rumbles or steams, keep away and open no tap. Else open a cold tap until the pump starts, and close it again. Once the pump rests, knock on the tank from top to bottom. If it sounds full all the way up, it has lost its air. If its upper part sounds hollow, look for a closed valve or a check valve between it and the water heater.',
    cautions: ['runaway-heater', 'well-pit'],
  },
  {
    sideA: ['broken-pipe'],
    sideB: ['open-tap', 'worn-pump', 'switch-contacts-stuck'],
    how: 'Close all taps and switch the pump off at its breaker. Look for wet ground along the pipe, without stepping on it. Stay out of pits.',
    cautions: ['hot-panel', 'buried-cable', 'well-pit'],
  },
  {
    sideA: ['habit-changed'],
    sideB: [...HOUSE_SIDE, ...SUPPLY, ...TANK, 'low-well', 'failing-motor'],
    how: 'Ask who lives there and who looks after the stock and the garden. If it was meant, enter it as expected.',
  },
  {
    sideA: ['supply-voltage', 'generator'],
    sideB: ['failing-motor', 'worn-pump', 'sand', 'failing-capacitor', 'low-well', 'lost-leg'],
    how: 'Have an electrician measure the voltage at the pump’s disconnect while it runs. At the value of its nameplate the supply is not to blame.',
    cautions: ['electrician'],
  },
  {
    sideA: ['frozen'],
    sideB: ['blocked-nipple', 'transducer-fault', ...SUPPLY, 'switch-contacts-stuck', 'low-well'],
    how: 'Not if the pump ran past its cut-out, or its breaker tripped: keep away, leave the pump off and call your pump contractor. Else switch the pump off at its breaker, and look at a thermometer by the pipes. What thaws and then works was frozen.',
    cautions: [
      'hot-panel',
      'live-metal',
      'relief-valve',
      'tank-pressure',
      'well-pit',
      'freezing',
      'stock-water',
    ],
  },
  {
    sideA: ['switch-contacts-stuck', 'switch-out-of-set', 'blocked-nipple'],
    sideB: ['broken-pipe', 'open-tap', 'leak', 'worn-pump', 'low-well', 'overload-tripping'],
    how: 'Read the pressure while the pump runs, from the door or on the screen. If it is over the cut-out and the pump runs on, the switch does not stop it. Switch the pump off from outside, at its breaker or the main, and not where the tank is. If you cannot, keep everybody away, and call the power company to cut the service. If it stays under, the water goes elsewhere or does not come.',
    cautions: ['hot-panel', 'tank-pressure', 'well-pit'],
  },
  {
    sideA: ['switch-contacts-stuck'],
    sideB: ['blocked-nipple', 'frozen', 'switch-out-of-set'],
    how: 'The gauge climbs in the same way when the contacts are stuck and when the small pipe to the switch is plugged or frozen. An electrician or a pump contractor tells which inside the switch, with the power locked off. Until then leave the pump off.',
    cautions: ['electrician', 'lock-out', 'well-pit', 'stock-water'],
  },
  {
    sideA: ['bad-card'],
    sideB: ['tank-air-lost', 'bladder-burst', 'switch-out-of-set', 'supply-voltage'],
    how: 'Compare the card with the papers, with nameplates that can be read from outside, and with what was last set. Open nothing for it.',
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
