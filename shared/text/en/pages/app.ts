/** Texts of the frame around the pages, and of words that several pages share. */
import { formatCount } from '../format.ts';

interface AttentionCounts {
  now: number;
  today: number;
  soon: number;
  'no-data': number;
  note: number;
}

const ATTENTION_PARTS: readonly [keyof AttentionCounts, string][] = [
  ['now', 'to act on now'],
  ['today', 'to act on today'],
  ['soon', 'this week'],
  ['no-data', 'without data'],
  ['note', 'worth a look'],
];

interface PrechargeTarget {
  target: string;
  under: string;
  cutIn: string;
  isMeasured: boolean;
}

export const appTexts = {
  pageTitle: (title: string) => `${title} · Stillwell`,
  safetyNote:
    'Stillwell monitors and notifies. It is not a safety device and switches nothing. Only licensed people may work on a pump, its wiring or its tank.',
  notFound: 'Not found',
  allWells: 'All wells',
  uploadFailed: 'The upload failed: the server did not answer or the connection broke. Try again.',
  noServer: 'The server does not answer. Is it running?',
  badAnswer: 'The server sent an unexpected answer.',
  pageFailed: 'Something went wrong. Reload the page.',
  noValues: 'no values',
  valueSpan: (min: string, max: string, unit: string, last: string, unit2: string) =>
    `from ${min} to ${max} ${unit}, last ${last} ${unit2}`,
  runTimeOfDays: (days: number) => `Run time per day, last ${days} days`,
  noDays: 'No full day of data from this well yet.',
  runTimeSpan: (min: string, max: string, last: string) =>
    `Run time per day: from ${min} to ${max}, last ${last}.`,
  sheetOf: (sheet: number, count: number, labels: string) => `Sheet ${sheet} of ${count}: ${labels}`,
  mostLikely: 'most likely',
  likelyUnsure: 'likely, but not certain',
  likeliestOfSeveral: 'most likely of several',
  possible: 'possible',
  lessLikely: 'less likely',
  threePhase: 'three phase',
  singlePhase: 'single phase',
  wires: (count: number) => `${count} wires`,
  atMost: (amps: string) => `${amps} maximum`,
  fromTo: (from: string, to: string) => `${from} to ${to}`,
  noFlowMeter: 'not known without a flow meter',
  fromPressure: 'calculated from pressure and tank',
  noTankNorMeter: 'not known without a tank on the card or a flow meter',
  limit: (amount: string) => `limit ${amount}`,
  lowerLimit: (amount: string) => `lower limit ${amount}`,
  titles: {
    wells: 'Wells',
    due: 'Due checks',
    parts: 'Parts of a well',
    'new-well': 'Add a well',
    nodes: 'Nodes',
    refused: 'Refused messages',
    nowhere: 'Not found',
    card: 'Card',
    visit: 'Visits',
    readings: 'Readings',
    checks: 'Checks',
    water: 'Water tests',
    figures: 'Pump and water over the years',
    yield: 'Yield tests',
    labels: 'Labels',
    documents: 'Documents',
    export: 'Export',
  },
  ofWell: (what: string, well: string) => `${what}, ${well}`,
  labelOf: (title: string, facts: readonly string[]) =>
    `Label: ${facts.length === 0 ? `${title}, to fill in by hand` : facts.join('; ')}`,
  noRoomFor: (facts: readonly string[], inCode: boolean) =>
    `No room at this size for: ${facts.join(', ')}.${inCode ? ' The code holds it.' : ''}`,
  attention: {
    now: 'Act now',
    soon: 'This week',
    'no-data': 'No data',
    note: 'Worth a look',
    visit: 'Visit open',
    learning: 'Learning',
    normal: 'Normal',
    'not-in-use': 'Not in use',
  },
  wellsSummary: (wells: number, counts: AttentionCounts) => {
    const parts = ATTENTION_PARTS.flatMap(([name, words]) =>
      counts[name] === 0 ? [] : [`${counts[name]} ${words}`],
    );
    return `${formatCount(wells, 'well')}: ${parts.length === 0 ? 'no active alarm' : parts.join(', ')}.`;
  },
  undated: {
    off: 'Postponed',
    'not-needed': 'Not needed here',
    'not-recorded': 'No recorded date',
    'on-hold': 'On hold',
    later: 'Done',
    due: 'Due',
    overdue: 'Overdue',
  },
  proposed: (day: string) => `No recorded date. Proposed: ${day}`,
  overdueSince: (day: string, days: number) => `Overdue since ${day}, ${daysText(days)}`,
  dueToday: 'Due today',
  dueOn: (day: string, days: number) => `Due ${day}, in ${daysText(days)}`,
  once: 'Once.',
  yearlyOn: (day: string) => `Yearly on ${day}.`,
  everyDays: (days: number) =>
    days === 365 ? 'Yearly.' : days === 182 ? 'Twice a year.' : `Every ${daysText(days)}.`,
  targetUnder: ({ target, under, cutIn, isMeasured }: PrechargeTarget) =>
    `${target}, ${under} below the ${isMeasured ? 'measured cut-in' : 'cut-in on the card'} of ${cutIn}.`,
  downtime: {
    'laid-up': (since: string, until?: string) =>
      until === undefined ? `Laid up since ${since}` : `Laid up until ${until}`,
    'out-of-service': (since: string, until?: string) =>
      until === undefined ? `Out of service since ${since}` : `Out of service until ${until}`,
  },
  serviceFacts: {
    pump: 'Pump',
    motor: 'Motor',
    setAt: 'Set at',
    installed: 'Installed',
    tank: 'Tank',
    precharge: 'Precharge',
    switch: 'Switch',
    reliefValve: 'Relief valve',
    normalAmps: 'Normal amps',
    normalPressures: 'Normal cut-in and cut-out',
    normalRun: 'Normal run',
  },
  missingFacts: {
    pump: 'type and power of the pump',
    motor: 'motor nameplate',
    setAt: 'setting depth of the pump',
    installed: 'installation date of the pump',
    tank: 'type and size of the tank',
    precharge: 'tank precharge',
    switch: 'pressure switch',
    reliefValve: 'relief valve',
    normalAmps: 'normal amps',
    normalPressures: 'normal cut-in and cut-out',
    normalRun: 'normal run',
  },
  metered: 'measured by a flow meter',
  amountOf: (amount: string, open?: 'under' | 'over') => (open === undefined ? amount : `${open} ${amount}`),
  trend: (first: string, last: string, isRising: boolean) =>
    `first ${first}, last ${last}${isRising ? '; higher each time' : ''}`,
};

/** Days as people count them: months from two months on, years from two years on. */
function daysText(days: number): string {
  if (days >= 730) return formatCount(Math.round(days / 365), 'year');
  return days >= 60 ? formatCount(Math.round(days / 30.4), 'month') : formatCount(days, 'day');
}
