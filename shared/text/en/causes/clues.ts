/**
 * What else was known when an alarm rose, and which causes it speaks for or against: a clue is a
 * figure of the alarm's evidence with a sentence for people and odds for causes. The same table
 * weighs (src/core/alarms/reweigh-by-clues.ts) and explains (./cause-evidence.ts), so that what a
 * page gives as a reason is what moved the weight. Odds over 1 speak for a cause, under 1 against
 * it; they are coarse on purpose, what a technician would call "that settles it", "that fits" and
 * "hardly". From the physics named beside them, not from any recording.
 */
import type { UnitSystem } from '../../../quantity/format-quantity.ts';
import { formatCount, formatDuration, formatPressure, formatPercent, formatTemperature } from '../format.ts';
import type { AlarmKind } from '../alarms/kinds.ts';
import {
  FITS,
  FITS_A_LITTLE,
  HARDLY,
  RULES_OUT,
  SETTLES,
  SPEAKS_AGAINST,
  type Clue,
  type ClueReading,
} from './clue-shape.ts';
import {
  airShare,
  deliveryShare,
  lateRiseS,
  leakLPerDay,
  levelFallM,
  levelM,
  promptRiseS,
  runsLoseShare,
  storeM,
  tankKind,
} from './water-clues.ts';

/** Nothing is drawn or lifted as it was in the run before. */
const NO_DELIVERY_ALARMS = ['dry-run', 'no-water', 'no-start', 'failed-start'] as const;
/** Alarms made of amps: their own words say the figure. */
const AMPS_ALARMS = [
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

const numeric =
  (read: (value: number, evidence: Readonly<Record<string, number | string>>) => ClueReading | undefined) =>
  (value: number | string, evidence: Readonly<Record<string, number | string>>) =>
    typeof value === 'number' ? read(value, evidence) : undefined;

/** A centrifugal pump draws more current the more water it lifts, and less where none comes. */
function ampsShare(
  share: number,
  { pumpKind: kind }: Readonly<Record<string, number | string>>,
): ClueReading | undefined {
  if (kind === 'positive-displacement') return displacementAmpsShare(share);
  const off = formatPercent(Math.abs(share - 1));
  if (share >= 1.04)
    return {
      text: () => `The pump draws ${off} more than usual.`,
      odds: {
        'broken-pipe': FITS,
        'open-tap': FITS_A_LITTLE,
        'drop-pipe-leak': FITS_A_LITTLE,
        'failing-motor': FITS_A_LITTLE,
        sand: FITS_A_LITTLE,
        'broken-shaft': SPEAKS_AGAINST,
        'air-lock': SPEAKS_AGAINST,
        'low-well': HARDLY,
        'worn-pump': HARDLY,
        'lost-prime': SPEAKS_AGAINST,
        'closed-valve': SPEAKS_AGAINST,
      },
    };
  if (share > 0.97)
    return {
      text: () => 'The pump draws what it usually does.',
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
    text: () => `The pump draws ${off} less than usual.`,
    odds: {
      'low-well': far ? FITS : FITS_A_LITTLE,
      'closed-valve': far ? FITS : FITS_A_LITTLE,
      'lost-prime': far ? FITS : 1,
      'broken-shaft': far ? FITS : HARDLY,
      'air-lock': far ? FITS : 1,
      'worn-pump': FITS_A_LITTLE,
      'broken-pipe': HARDLY,
      'open-tap': far ? SPEAKS_AGAINST : HARDLY,
      leak: HARDLY,
      'failing-motor': HARDLY,
    },
  };
}

/**
 * A helical-rotor, cylinder or jack pump lifts the same water whatever the pressure: its current
 * goes with the head alone. A shut valve or a plugged filter raises it, an open end lowers it; what
 * little a worn one slips hardly shows (from memory).
 */
function displacementAmpsShare(share: number): ClueReading | undefined {
  const off = formatPercent(Math.abs(share - 1));
  if (share >= 1.04)
    return {
      text: () => `The pump draws ${off} more than usual: it works against more pressure or friction.`,
      odds: {
        'closed-valve': FITS,
        'plugged-filter': FITS,
        frozen: FITS_A_LITTLE,
        'failing-motor': FITS_A_LITTLE,
        sand: FITS,
        'broken-pipe': SPEAKS_AGAINST,
        'drop-pipe-leak': SPEAKS_AGAINST,
        'open-tap': HARDLY,
        'broken-shaft': SPEAKS_AGAINST,
      },
    };
  if (share > 0.97) return undefined;
  const far = share < 0.85;
  return {
    text: () => `The pump draws ${off} less than usual: it works against less pressure.`,
    odds: {
      'broken-pipe': FITS,
      'drop-pipe-leak': FITS,
      'open-tap': FITS_A_LITTLE,
      'broken-shaft': far ? FITS : HARDLY,
      'low-well': far ? FITS_A_LITTLE : HARDLY,
      'worn-pump': FITS_A_LITTLE,
      'closed-valve': RULES_OUT,
      'plugged-filter': RULES_OUT,
    },
  };
}

/** Voltage says whether breaker and supply are to blame, and nothing of the rest. */
function voltsShare(share: number): ClueReading {
  const off = formatPercent(Math.abs(share - 1));
  if (share < 0.5)
    return {
      text: () => 'There is no voltage at the pump.',
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
        'switch-contacts-open': SPEAKS_AGAINST,
        'broken-wire': SPEAKS_AGAINST,
      },
    };
  const there = { 'power-lost': RULES_OUT, 'breaker-open': RULES_OUT, 'ground-fault': RULES_OUT };
  if (Math.abs(share - 1) <= 0.05)
    return {
      text: () => 'The voltage at the pump is as on its nameplate.',
      odds: { ...there, 'supply-voltage': SPEAKS_AGAINST, generator: HARDLY },
    };
  const far = Math.abs(share - 1) > 0.1;
  return {
    text: () => `The voltage at the pump is ${off} ${share > 1 ? 'over' : 'under'} its nameplate.`,
    odds: { ...there, 'supply-voltage': far ? SETTLES : FITS_A_LITTLE, generator: far ? FITS : 1 },
  };
}

/** Current unbalance is 6 to 10 times that of the voltages (NEMA MG 1, part 14). */
function voltsUnbalance(share: number): ClueReading | undefined {
  const text = (): string => `The three voltages differ by ${formatPercent(share)}.`;
  if (share >= 0.01)
    return { text, odds: { 'supply-voltage': SETTLES, 'failing-motor': HARDLY, 'clamp-off': HARDLY } };
  return share <= 0.005
    ? {
        text,
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
  const text = (units: UnitSystem): string =>
    `The air at the pump is at ${formatTemperature(celsius, units)}.`;
  if (celsius < 1) return { text, odds: { frozen: SETTLES, 'broken-pipe': FITS_A_LITTLE } };
  return celsius > 5 ? { text, odds: { frozen: RULES_OUT } } : undefined;
}

/** What a card says of the motor decides which parts it has at all. */
function phase(phases: number): ClueReading {
  return phases === 3
    ? { text: () => 'The motor is a three-phase one.', odds: { 'failing-capacitor': RULES_OUT } }
    : {
        text: () => 'The motor is a single-phase one.',
        // Two leads of a three-wire motor can be swapped in its control box.
        odds: { 'lost-leg': RULES_OUT, 'wrong-rotation': HARDLY },
      };
}

function pumpKind(kind: number | string): ClueReading | undefined {
  if (kind === 'submersible')
    return {
      text: () => 'The pump stands in the water.',
      odds: { 'lost-prime': RULES_OUT, 'store-empty': RULES_OUT },
    };
  if (kind === 'booster')
    return {
      text: () => 'The pump draws from a storage tank, not from the well.',
      odds: { 'low-well': RULES_OUT, 'water-table-risen': RULES_OUT },
    };
  return kind === 'jet'
    ? { text: () => 'The pump stands above the water and draws it up.', odds: { 'lost-prime': FITS } }
    : undefined;
}

/**
 * Submersible pumps last some 8 to 15 years (common practice, no source). Starts, hours and water
 * age a pump, and years stand for them here: no source says how many starts one lasts.
 */
function ageYears(years: number): ClueReading | undefined {
  const text = (): string => `The pump is ${formatCount(years, 'year', 'years')} old.`;
  if (years >= 12) return { text, odds: { 'worn-pump': FITS_A_LITTLE, 'failing-motor': FITS_A_LITTLE } };
  return years <= 2 ? { text, odds: { 'worn-pump': HARDLY, 'failing-motor': HARDLY } } : undefined;
}

export const CLUES: readonly Clue[] = [
  { figure: 'ampsShare', excludedAlarms: AMPS_ALARMS, read: numeric(ampsShare) },
  { figure: 'levelM', excludedAlarms: ['level-low'], read: numeric(levelM) },
  { figure: 'levelFallM', read: numeric(levelFallM) },
  {
    figure: 'voltsShare',
    excludedAlarms: ['supply-voltage', 'power-lost', 'amps-high', 'amps-low', 'leg-imbalance'],
    read: numeric(voltsShare),
  },
  { figure: 'voltsUnbalance', onlyAlarms: ['leg-imbalance'], read: numeric(voltsUnbalance) },
  { figure: 'storeM', excludedAlarms: ['store-low'], read: numeric(storeM) },
  { figure: 'tankKind', read: tankKind },
  { figure: 'temperatureC', excludedAlarms: ['freeze-risk'], read: numeric(temperatureC) },
  { figure: 'lateRiseS', read: numeric(lateRiseS) },
  { figure: 'promptRiseS', read: numeric(promptRiseS) },
  // A leak takes from what a run delivers: what that says is in the figure after it.
  {
    figure: 'deliveryShare',
    excludedAlarms: ['slow-fill', 'leak', ...NO_DELIVERY_ALARMS],
    read: numeric(deliveryShare),
  },
  { figure: 'runsLoseShare', onlyAlarms: ['leak'], read: numeric(runsLoseShare) },
  { figure: 'airShare', excludedAlarms: ['tank-air-lost', 'tank-overcharged'], read: numeric(airShare) },
  {
    figure: 'leakLPerDay',
    excludedAlarms: ['leak', 'long-run', 'over-pressure', 'cut-out-not-reached', ...NO_DELIVERY_ALARMS],
    read: numeric(leakLPerDay),
  },
  {
    figure: 'failedStarts',
    excludedAlarms: ['failed-start'],
    read: numeric((n) => ({
      text: () => `${formatCount(n, 'start has', 'starts have')} failed in the last day.`,
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
    onlyAlarms: ['failed-start'],
    read: numeric((n) => ({
      text: () => `${formatCount(n, 'start was', 'starts were')} good in the last day.`,
      odds: { 'failing-capacitor': FITS_A_LITTLE, 'supply-voltage': FITS_A_LITTLE, 'stuck-rotor': HARDLY },
    })),
  },
  {
    figure: 'brokeOffKpa',
    onlyAlarms: ['no-start', 'no-run', 'failed-start'],
    read: numeric((kpa) => ({
      text: (units) => `The last run broke off at ${formatPressure(kpa, units)}, before its cut-out.`,
      odds: {
        'overload-tripping': FITS,
        'protector-waiting': FITS,
        'power-lost': FITS_A_LITTLE,
        'breaker-open': FITS_A_LITTLE,
        'switch-out-of-set': HARDLY,
      },
    })),
  },
  { figure: 'phase', read: numeric(phase) },
  {
    figure: 'wires',
    read: (wires) =>
      wires === 2
        ? {
            text: () => 'The motor has two wires and no control box.',
            odds: { 'failing-capacitor': SPEAKS_AGAINST, 'wrong-rotation': RULES_OUT },
          }
        : undefined,
  },
  { figure: 'pumpKind', read: pumpKind },
  { figure: 'ageYears', read: numeric(ageYears) },
  {
    figure: 'sinceVisitH',
    read: numeric((hours) => ({
      text: () => `Somebody worked on it ${formatDuration(hours * 3600)} before.`,
      odds: {
        serviced: SETTLES,
        'wrong-rotation': SETTLES,
        'closed-valve': FITS,
        'switch-out-of-set': FITS,
        'tank-overcharged': FITS,
        'clamp-off': FITS,
        'air-lock': FITS,
        'bad-card': FITS_A_LITTLE,
      },
    })),
  },
  {
    figure: 'expected',
    read: (text) => ({
      text: () => `It was entered as expected: ${String(text)}.`,
      odds: { 'habit-changed': FITS, 'open-tap': FITS_A_LITTLE },
    }),
  },
];

/** What each clue among an alarm's figures says. */
export function evaluateClues(
  alarm: AlarmKind,
  evidence: Readonly<Record<string, number | string>>,
): { figure: string; reading: ClueReading }[] {
  return CLUES.flatMap(({ figure, excludedAlarms, onlyAlarms, read }) => {
    const value = evidence[figure];
    if (value === undefined || excludedAlarms?.includes(alarm) || (onlyAlarms && !onlyAlarms.includes(alarm)))
      return [];
    const reading = read(value, evidence);
    return reading ? [{ figure, reading }] : [];
  });
}
