/**
 * What else was known when an alarm rose, and which causes it speaks for or against: a clue is a figure of the alarm's evidence with a
 * sentence for people and odds for causes. The same table weighs (src/watch/with-clues.ts) and explains (./for-and-against.ts), so that
 * what a page gives as a reason is what moved the weight. Odds over 1 speak for a cause, under 1 against it; they are coarse on purpose,
 * what a technician would call "that settles it", "that fits" and "hardly". From the physics named beside them, not from any recording.
 */
import type { UnitSystem } from '../quantity/print-quantity.ts';
import {
  sayCount,
  sayDepth,
  sayDuration,
  sayPressure,
  sayShare,
  sayTemperature,
  sayVolume,
} from './format.ts';
import type { AlarmKind, Cause } from './kinds.ts';

export interface ClueReading {
  /** A whole sentence. */
  says: (units: UnitSystem) => string;
  odds: Partial<Record<Cause, number>>;
}

export interface Clue {
  /** Its name in an alarm's evidence. */
  figure: string;
  /** Alarms that are made of this very figure, or to which it is too old: it tells them nothing. */
  notOf?: readonly AlarmKind[];
  /** Only these, where named. */
  onlyOf?: readonly AlarmKind[];
  reads: (
    value: number | string,
    evidence: Readonly<Record<string, number | string>>,
  ) => ClueReading | undefined;
}

const SETTLES = 4;
const FITS = 2;
const FITS_A_LITTLE = 1.4;
const NOT_QUITE = 0.7;
const HARDLY = 0.4;
const SPEAKS_AGAINST = 0.15;
const RULES_OUT = 0.03;

/** Nothing is drawn or lifted as it was in the run before. */
const BROKE_OFF = ['dry-run', 'no-water', 'no-start', 'failed-start'] as const;
/** Alarms made of amps: their own words say the figure. */
const OF_AMPS = [
  'amps-high',
  'amps-low',
  'dry-run',
  'leg-lost',
  'leg-imbalance',
  'failed-start',
  'supply-voltage',
  // Of runs that were before.
  'no-start',
  'no-run',
] as const;

const number =
  (read: (value: number, evidence: Readonly<Record<string, number | string>>) => ClueReading | undefined) =>
  (value: number | string, evidence: Readonly<Record<string, number | string>>) =>
    typeof value === 'number' ? read(value, evidence) : undefined;

/** A centrifugal pump draws more current the more water it lifts, and less where none comes. */
function ampsShare(share: number): ClueReading {
  const off = sayShare(Math.abs(share - 1));
  if (share >= 1.04)
    return {
      says: () => `The pump draws ${off} more than usual.`,
      odds: {
        'broken-pipe': FITS,
        'open-tap': FITS_A_LITTLE,
        'drop-pipe-leak': FITS_A_LITTLE,
        'failing-motor': FITS_A_LITTLE,
        sand: FITS_A_LITTLE,
        'low-well': HARDLY,
        'worn-pump': HARDLY,
        'lost-prime': SPEAKS_AGAINST,
        'closed-valve': SPEAKS_AGAINST,
      },
    };
  if (share > 0.97)
    return {
      says: () => 'The pump draws what it usually does.',
      odds: {
        'open-tap': FITS_A_LITTLE,
        'broken-pipe': FITS_A_LITTLE,
        leak: FITS_A_LITTLE,
        'habit-changed': FITS_A_LITTLE,
        'low-well': HARDLY,
        'closed-valve': HARDLY,
        'lost-prime': SPEAKS_AGAINST,
      },
    };
  const far = share < 0.85;
  return {
    says: () => `The pump draws ${off} less than usual.`,
    odds: {
      'low-well': far ? FITS : FITS_A_LITTLE,
      'closed-valve': far ? FITS : FITS_A_LITTLE,
      'lost-prime': far ? FITS : 1,
      'worn-pump': FITS_A_LITTLE,
      'broken-pipe': HARDLY,
      'open-tap': far ? SPEAKS_AGAINST : HARDLY,
      leak: HARDLY,
      'failing-motor': HARDLY,
    },
  };
}

/** How much stands over the pump says whether it can suck air; how far it has sunk, what the pump must lift (below). */
function levelM(
  level: number,
  { levelFallM: fall }: Readonly<Record<string, number | string>>,
): ClueReading | undefined {
  const says = (units: UnitSystem): string =>
    `${sayDepth(Math.max(0, level), units)} of water stand over the pump.`;
  if (level < 1.5)
    return {
      says,
      odds: { 'low-well': SETTLES, 'worn-pump': HARDLY, 'closed-valve': HARDLY, 'lost-prime': HARDLY },
    };
  const hasSunk = typeof fall === 'number' && fall >= SUNK_M;
  return level > 5 && !hasSunk ? { says, odds: { 'low-well': 0.08 } } : undefined;
}

/** 3 m more to lift are 30 kPa less for the house: 5 % of what a pump for 60 m gives. Twice that would be felt by any. */
const SUNK_M = 3;
const SUNK_FAR_M = 6;

/** A pump that must lift further delivers less and draws less, however much water is left over it. */
function levelFallM(fall: number): ClueReading | undefined {
  if (fall >= SUNK_M)
    return {
      says: (units) => `The water stands ${sayDepth(fall, units)} lower than at first.`,
      odds: {
        'low-well': fall >= SUNK_FAR_M ? SETTLES : FITS,
        'worn-pump': HARDLY,
        'closed-valve': HARDLY,
        'supply-voltage': HARDLY,
      },
    };
  return fall < 1
    ? { says: () => 'The water stands as high as at first.', odds: { 'low-well': HARDLY } }
    : undefined;
}

/** Voltage says whether breaker and supply are to blame, and nothing of the rest. */
function voltsShare(share: number): ClueReading {
  const off = sayShare(Math.abs(share - 1));
  if (share < 0.5)
    return {
      says: () => 'There is no voltage at the pump.',
      odds: {
        'power-lost': SETTLES,
        'breaker-open': SETTLES,
        'overload-tripping': SPEAKS_AGAINST,
        'failing-motor': SPEAKS_AGAINST,
        'switch-out-of-set': SPEAKS_AGAINST,
        'low-pressure-cut-off': SPEAKS_AGAINST,
        'protector-waiting': SPEAKS_AGAINST,
        'habit-changed': SPEAKS_AGAINST,
        'clamp-off': SPEAKS_AGAINST,
      },
    };
  const there = { 'power-lost': RULES_OUT, 'breaker-open': RULES_OUT };
  if (Math.abs(share - 1) <= 0.05)
    return {
      says: () => 'The voltage at the pump is as on its plate.',
      odds: { ...there, 'supply-voltage': SPEAKS_AGAINST, generator: HARDLY },
    };
  const far = Math.abs(share - 1) > 0.1;
  return {
    says: () => `The voltage at the pump is ${off} ${share > 1 ? 'over' : 'under'} its plate.`,
    odds: { ...there, 'supply-voltage': far ? SETTLES : FITS_A_LITTLE, generator: far ? FITS : 1 },
  };
}

/** Current unbalance is 6 to 10 times that of the voltages (NEMA MG 1, part 14). */
function voltsUnbalance(share: number): ClueReading | undefined {
  const says = (): string => `The three voltages differ by ${sayShare(share)}.`;
  if (share >= 0.01)
    return { says, odds: { 'supply-voltage': SETTLES, 'failing-motor': HARDLY, 'clamp-off': HARDLY } };
  return share <= 0.005
    ? {
        says,
        odds: {
          'supply-voltage': SPEAKS_AGAINST,
          'lost-leg': HARDLY,
          'failing-motor': FITS,
          'clamp-off': FITS,
        },
      }
    : undefined;
}

function temperatureC(celsius: number): ClueReading | undefined {
  const says = (units: UnitSystem): string => `The air at the pump is at ${sayTemperature(celsius, units)}.`;
  if (celsius < 1) return { says, odds: { frozen: SETTLES, 'broken-pipe': FITS_A_LITTLE } };
  return celsius > 5 ? { says, odds: { frozen: RULES_OUT } } : undefined;
}

/** Water that ran back leaves an empty pipe, which the next run must fill before the pressure moves. No leak in a house empties it. */
function lateRiseS(seconds: number): ClueReading {
  return {
    says: () => `A run takes ${sayDuration(seconds)} before the pressure moves.`,
    odds: {
      'check-valve': SETTLES,
      'drop-pipe-leak': SETTLES,
      'pitless-leak': SETTLES,
      leak: HARDLY,
      'open-tap': HARDLY,
    },
  };
}

/** Little against a way back into the well: where nothing shuts between it and the tank, the tank keeps the pipe full. */
function promptRiseS(seconds: number): ClueReading {
  return {
    says: () =>
      `The pressure rises ${sayDuration(seconds)} into a run, also after a long rest: the pipe was still full.`,
    odds: { 'check-valve': NOT_QUITE, 'drop-pipe-leak': NOT_QUITE, 'pitless-leak': NOT_QUITE },
  };
}

function deliveryShare(share: number): ClueReading | undefined {
  if (share < 0.92)
    return {
      says: () => `It delivers ${sayShare(1 - share)} less at the same pressure.`,
      odds: {
        'worn-pump': FITS,
        'low-well': FITS_A_LITTLE,
        'drop-pipe-leak': FITS_A_LITTLE,
        'pitless-leak': FITS_A_LITTLE,
        'closed-valve': FITS_A_LITTLE,
        'clamp-off': HARDLY,
      },
    };
  if (share < 0.97) return undefined;
  return {
    says: () => 'It delivers as much as ever at the same pressure.',
    odds: {
      'worn-pump': SPEAKS_AGAINST,
      'closed-valve': SPEAKS_AGAINST,
      'low-well': HARDLY,
      'drop-pipe-leak': HARDLY,
      'pitless-leak': HARDLY,
    },
  };
}

/**
 * Water lost at rest is lost in a run too, and no more of it by a leak in the house. A run that delivers even less loses the rest before the
 * water comes to the gauge: through a hole in the pipe, with the pump's whole pressure behind it.
 */
function runsLoseShare(share: number): ClueReading {
  return {
    says: () => `A run brings ${sayShare(share)} less than that loss alone would take from it.`,
    odds: {
      'drop-pipe-leak': SETTLES,
      'pitless-leak': SETTLES,
      'check-valve': SETTLES,
      leak: HARDLY,
      'open-tap': HARDLY,
    },
  };
}

function airShare(share: number): ClueReading | undefined {
  if (share < 0.85)
    return {
      says: () => 'The fills show too little air in the tank.',
      odds: { 'tank-air-lost': FITS, 'bladder-burst': FITS, 'switch-chatter': HARDLY },
    };
  return share > 0.93 && share < 1.08
    ? {
        says: () => 'The fills show the tank’s air as it should be.',
        odds: { 'tank-air-lost': SPEAKS_AGAINST, 'bladder-burst': SPEAKS_AGAINST },
      }
    : undefined;
}

function leakLPerDay(litres: number): ClueReading | undefined {
  if (litres >= 80)
    return {
      says: (units) => `About ${sayVolume(litres, units)} a day leave in quiet hours.`,
      odds: {
        leak: FITS,
        'open-tap': FITS,
        'check-valve': FITS,
        'drop-pipe-leak': FITS,
        'pitless-leak': FITS,
        'habit-changed': HARDLY,
      },
    };
  return litres < 20
    ? {
        says: () => 'The pressure holds in quiet hours.',
        odds: {
          leak: SPEAKS_AGAINST,
          'open-tap': SPEAKS_AGAINST,
          'check-valve': SPEAKS_AGAINST,
          'drop-pipe-leak': SPEAKS_AGAINST,
          'pitless-leak': SPEAKS_AGAINST,
        },
      }
    : undefined;
}

/** What a card says of the motor decides which parts it has at all. */
function phase(phases: number): ClueReading {
  return phases === 3
    ? { says: () => 'The motor is a three-phase one.', odds: { 'failing-capacitor': RULES_OUT } }
    : {
        says: () => 'The motor is a single-phase one.',
        odds: { 'lost-leg': RULES_OUT, 'wrong-rotation': RULES_OUT },
      };
}

function pumpKind(kind: number | string): ClueReading | undefined {
  if (kind === 'submersible')
    return { says: () => 'The pump stands in the water.', odds: { 'lost-prime': RULES_OUT } };
  return kind === 'jet'
    ? { says: () => 'The pump stands above the water and draws it up.', odds: { 'lost-prime': FITS } }
    : undefined;
}

/** Submersible pumps last some 8 to 15 years (common practice, no source). */
function ageYears(years: number): ClueReading | undefined {
  const says = (): string => `The pump is ${sayCount(years, 'year', 'years')} old.`;
  if (years >= 12) return { says, odds: { 'worn-pump': FITS_A_LITTLE, 'failing-motor': FITS_A_LITTLE } };
  return years <= 2 ? { says, odds: { 'worn-pump': HARDLY, 'failing-motor': HARDLY } } : undefined;
}

export const CLUES: readonly Clue[] = [
  { figure: 'ampsShare', notOf: OF_AMPS, reads: number(ampsShare) },
  { figure: 'levelM', notOf: ['level-low'], reads: number(levelM) },
  { figure: 'levelFallM', reads: number(levelFallM) },
  {
    figure: 'voltsShare',
    notOf: ['supply-voltage', 'power-lost', 'amps-high', 'amps-low', 'leg-imbalance'],
    reads: number(voltsShare),
  },
  { figure: 'voltsUnbalance', onlyOf: ['leg-imbalance'], reads: number(voltsUnbalance) },
  { figure: 'temperatureC', notOf: ['freeze-risk'], reads: number(temperatureC) },
  { figure: 'lateRiseS', reads: number(lateRiseS) },
  { figure: 'promptRiseS', reads: number(promptRiseS) },
  // A leak takes from what a run delivers: what that says is in the figure after it.
  { figure: 'deliveryShare', notOf: ['slow-fill', 'leak', ...BROKE_OFF], reads: number(deliveryShare) },
  { figure: 'runsLoseShare', onlyOf: ['leak'], reads: number(runsLoseShare) },
  { figure: 'airShare', notOf: ['tank-air-lost', 'tank-overcharged'], reads: number(airShare) },
  {
    figure: 'leakLPerDay',
    notOf: ['leak', 'long-run', 'over-pressure', 'cut-out-not-reached', ...BROKE_OFF],
    reads: number(leakLPerDay),
  },
  {
    figure: 'failedStarts',
    notOf: ['failed-start'],
    reads: number((n) => ({
      says: () => `${sayCount(n, 'start has', 'starts have')} failed in the last day.`,
      odds: {
        'overload-tripping': FITS,
        'failing-capacitor': FITS,
        'stuck-rotor': FITS,
        'failing-motor': FITS_A_LITTLE,
        'habit-changed': HARDLY,
        'switch-out-of-set': HARDLY,
        'clamp-off': HARDLY,
      },
    })),
  },
  {
    figure: 'goodStarts',
    onlyOf: ['failed-start'],
    reads: number((n) => ({
      says: () => `${sayCount(n, 'start was', 'starts were')} good in the last day.`,
      odds: { 'failing-capacitor': FITS_A_LITTLE, 'supply-voltage': FITS_A_LITTLE, 'stuck-rotor': HARDLY },
    })),
  },
  {
    figure: 'brokeOffKpa',
    onlyOf: ['no-start', 'no-run', 'failed-start'],
    reads: number((kpa) => ({
      says: (units) => `The last run broke off at ${sayPressure(kpa, units)}, before its cut-out.`,
      odds: {
        'overload-tripping': FITS,
        'protector-waiting': FITS,
        'power-lost': FITS_A_LITTLE,
        'breaker-open': FITS_A_LITTLE,
        'switch-out-of-set': HARDLY,
      },
    })),
  },
  { figure: 'phase', reads: number(phase) },
  {
    figure: 'wires',
    reads: (wires) =>
      wires === 2
        ? {
            says: () => 'The motor has two wires and no control box.',
            odds: { 'failing-capacitor': SPEAKS_AGAINST },
          }
        : undefined,
  },
  { figure: 'pumpKind', reads: pumpKind },
  { figure: 'ageYears', reads: number(ageYears) },
  {
    figure: 'sinceVisitH',
    reads: number((hours) => ({
      says: () => `Somebody worked on it ${sayDuration(hours * 3600)} before.`,
      odds: {
        serviced: SETTLES,
        'wrong-rotation': SETTLES,
        'closed-valve': FITS,
        'switch-out-of-set': FITS,
        'tank-overcharged': FITS,
        'clamp-off': FITS,
        'bad-card': FITS_A_LITTLE,
      },
    })),
  },
  {
    figure: 'expected',
    reads: (text) => ({
      says: () => `It was entered as expected: ${String(text)}.`,
      odds: { 'habit-changed': FITS, 'open-tap': FITS_A_LITTLE },
    }),
  },
];

/** What each clue among an alarm's figures says. */
export function readClues(
  alarm: AlarmKind,
  evidence: Readonly<Record<string, number | string>>,
): { figure: string; reading: ClueReading }[] {
  return CLUES.flatMap(({ figure, notOf, onlyOf, reads }) => {
    const value = evidence[figure];
    if (value === undefined || notOf?.includes(alarm) || (onlyOf && !onlyOf.includes(alarm))) return [];
    const reading = reads(value, evidence);
    return reading ? [{ figure, reading }] : [];
  });
}
