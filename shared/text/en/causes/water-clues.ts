/** What the well, the tank and the water that is delivered or lost say for and against causes. */
import type { UnitSystem } from '../../../quantity/format-quantity.ts';
import { formatDepth, formatDuration, formatPercent, formatVolume } from '../format.ts';
import {
  FITS,
  FITS_A_LITTLE,
  HARDLY,
  NOT_QUITE,
  RULES_OUT,
  SETTLES,
  SPEAKS_AGAINST,
  type ClueReading,
} from './clue-shape.ts';

/**
 * How much stands over the pump says whether it can suck air; how far it has sunk, what the pump
 * must lift (below).
 */
export function levelM(
  level: number,
  { levelFallM: fall }: Readonly<Record<string, number | string>>,
): ClueReading | undefined {
  const text = (units: UnitSystem): string =>
    `${formatDepth(Math.max(0, level), units)} of water stand over the pump.`;
  if (level < 1.5)
    return {
      text,
      odds: { 'low-well': SETTLES, 'worn-pump': HARDLY, 'closed-valve': HARDLY, 'lost-prime': HARDLY },
    };
  const hasSunk = typeof fall === 'number' && fall >= MIN_FALL_M;
  return level > 5 && !hasSunk ? { text, odds: { 'low-well': 0.08 } } : undefined;
}

/**
 * 3 m more to lift are 30 kPa less for the house: 5 % of what a pump for 60 m gives. Twice that
 * would be felt by any.
 */
const MIN_FALL_M = 3;

const FAR_FALL_M = 6;

/**
 * A pump that must lift further delivers less and draws less, however much water is left over it.
 */
export function levelFallM(fall: number): ClueReading | undefined {
  if (fall >= MIN_FALL_M)
    return {
      text: (units) => `The water stands ${formatDepth(fall, units)} lower than at first.`,
      odds: {
        'low-well': fall >= FAR_FALL_M ? SETTLES : FITS,
        'worn-pump': HARDLY,
        'closed-valve': HARDLY,
        'supply-voltage': HARDLY,
        'water-table-risen': RULES_OUT,
      },
    };
  if (fall <= -MIN_FALL_M)
    return {
      text: (units) => `The water stands ${formatDepth(-fall, units)} higher than at first.`,
      odds: { 'water-table-risen': SETTLES, 'failing-motor': HARDLY, sand: HARDLY, 'low-well': HARDLY },
    };
  return fall < 1
    ? {
        text: () => 'The water stands as high as at first.',
        odds: { 'low-well': HARDLY, 'water-table-risen': RULES_OUT },
      }
    : undefined;
}

/**
 * Water that ran back leaves an empty pipe, which the next run must fill before the pressure moves.
 * No leak in a house empties it. With a plain tank a bleeder drains the pipe at each stop by design
 * (National Driller 87290).
 */
export function lateRiseS(
  seconds: number,
  { tankKind: kind }: Readonly<Record<string, number | string>>,
): ClueReading | undefined {
  if (kind === 'plain') return undefined;
  return {
    text: () => `A run takes ${formatDuration(seconds)} before the pressure moves.`,
    odds: {
      'check-valve': SETTLES,
      'drop-pipe-leak': SETTLES,
      'pitless-leak': SETTLES,
      leak: HARDLY,
      'open-tap': HARDLY,
    },
  };
}

/**
 * Little against a way back into the well: where nothing shuts between it and the tank, the tank
 * keeps the pipe full.
 */
export function promptRiseS(seconds: number): ClueReading {
  return {
    text: () =>
      `The pressure rises ${formatDuration(seconds)} into a run, also after a long rest: the pipe was still full.`,
    odds: { 'check-valve': NOT_QUITE, 'drop-pipe-leak': NOT_QUITE, 'pitless-leak': NOT_QUITE },
  };
}

export function deliveryShare(share: number): ClueReading | undefined {
  if (share < 0.92)
    return {
      text: () => `It delivers ${formatPercent(1 - share)} less at the same pressure.`,
      odds: {
        'worn-pump': FITS,
        'low-well': FITS_A_LITTLE,
        'drop-pipe-leak': FITS_A_LITTLE,
        'pitless-leak': FITS_A_LITTLE,
        'closed-valve': FITS_A_LITTLE,
        'plugged-filter': FITS_A_LITTLE,
        'plugged-screen': FITS_A_LITTLE,
        'water-table-risen': SPEAKS_AGAINST,
        'clamp-off': HARDLY,
      },
    };
  if (share < 0.97) return undefined;
  return {
    text: () =>
      share > 1.04
        ? `It delivers ${formatPercent(share - 1)} more at the same pressure.`
        : 'It delivers as much as ever at the same pressure.',
    odds: {
      ...(share > 1.04 && { 'water-table-risen': FITS }),
      'plugged-filter': SPEAKS_AGAINST,
      'plugged-screen': SPEAKS_AGAINST,
      'worn-pump': SPEAKS_AGAINST,
      'closed-valve': SPEAKS_AGAINST,
      'low-well': HARDLY,
      'drop-pipe-leak': HARDLY,
      'pitless-leak': HARDLY,
    },
  };
}

/**
 * Water lost at rest is lost in a run too, and no more of it by a leak in the house. A run that
 * delivers even less loses the rest before the water comes to the gauge: through a hole in the
 * pipe, with the pump's whole pressure behind it.
 */
export function runsLoseShare(share: number): ClueReading {
  return {
    text: () => `A run brings ${formatPercent(share)} less than that loss alone would take from it.`,
    odds: {
      'drop-pipe-leak': SETTLES,
      'pitless-leak': SETTLES,
      'check-valve': SETTLES,
      leak: HARDLY,
      'open-tap': HARDLY,
    },
  };
}

export function airShare(share: number): ClueReading | undefined {
  if (share < 0.85)
    return {
      text: () => 'The fills show too little air in the tank.',
      odds: { 'tank-air-lost': FITS, 'bladder-burst': FITS, 'switch-chatter': HARDLY },
    };
  return share > 0.93 && share < 1.08
    ? {
        text: () => 'The fills show the tank’s air as it should be.',
        odds: { 'tank-air-lost': SPEAKS_AGAINST, 'bladder-burst': SPEAKS_AGAINST },
      }
    : undefined;
}

export function leakLPerDay(litres: number): ClueReading | undefined {
  if (litres >= 80)
    return {
      text: (units) => `About ${formatVolume(litres, units)} a day leave in quiet hours.`,
      odds: {
        leak: FITS,
        'open-tap': FITS,
        'check-valve': FITS,
        'drop-pipe-leak': FITS,
        'pitless-leak': FITS,
        'hydrant-leak': FITS,
        'habit-changed': HARDLY,
      },
    };
  return litres < 20
    ? {
        text: () => 'The pressure holds in quiet hours.',
        odds: {
          leak: SPEAKS_AGAINST,
          'open-tap': SPEAKS_AGAINST,
          'check-valve': SPEAKS_AGAINST,
          'drop-pipe-leak': SPEAKS_AGAINST,
          'pitless-leak': SPEAKS_AGAINST,
          'hydrant-leak': SPEAKS_AGAINST,
        },
      }
    : undefined;
}

/** By its outlet, with room for a sensor that hangs askew; argued, no source. */
const STORE_EMPTY_M = 0.1;

const STORE_WET_M = 0.3;

export function storeM(depth: number): ClueReading | undefined {
  const text = (units: UnitSystem): string => `The storage tank holds ${formatDepth(depth, units)} of water.`;
  if (depth < STORE_EMPTY_M) return { text, odds: { 'store-empty': SETTLES } };
  return depth > STORE_WET_M ? { text, odds: { 'store-empty': RULES_OUT } } : undefined;
}

export function tankKind(kind: number | string): ClueReading | undefined {
  return kind === 'plain'
    ? { text: () => 'The tank is a plain one and has no bladder.', odds: { 'bladder-burst': RULES_OUT } }
    : undefined;
}
