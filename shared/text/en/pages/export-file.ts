/** The page of an export file: everything that is known about a well, for its next owner. */
import type { WrittenAct } from '../../../acts/act-fields.ts';
import { formatCount } from '../format.ts';

export const EXPORT_FILE_TEXT = {
  title: (well: string) => `${well}: well record`,
  place: (site: string) => `Site: ${site}. `,
  use: (uses: string) => `Use: ${uses}. `,
  coverage: (day: string | undefined) =>
    day === undefined
      ? 'Nothing is recorded about this well yet. '
      : `Everything recorded, measured and reported about this well up to ${day}. `,
  zone: (timeZone: string) => `Times are in ${timeZone}.`,
  contents: 'Contents',
  none: 'None recorded.',
  sections: {
    section: 'Cross section of the well',
    card: 'Card',
    readings: 'Manual readings',
    normal: 'Normal values',
    trends: 'Trends',
    alarms: 'Alarms',
    checks: 'Checks',
    water: 'Water tests',
    yield: 'Yield tests',
    visits: 'Visits and work',
    acts: 'Changes to monitoring',
    notes: 'Notes',
    papers: 'Documents',
    data: 'Data in this file',
  },
  byName: (by: string) => ` by ${by}`,
  card: {
    none: 'No card is recorded for this well.',
    intro: (day: string, by: string) =>
      `Last changed on ${day}${by}. Every value is what a person entered. Measured values are listed further down. Fields that nobody filled in are left out.`,
    changes: 'Changes to the card',
  },
  readings: {
    head: ['Date', 'Reading', 'Value', 'How', 'By', 'Note'],
    reference: (reading: string) => `${reading} (reference)`,
  },
  normal: {
    none: 'No normal values learned: the sensors did not measure long enough.',
    head: ['Since', 'Pump', 'Running amps', 'Cut-in to cut-out', 'Run time', 'Cycles per day', 'Note'],
    fromTo: (cutIn: string, cutOut: string) => `${cutIn} to ${cutOut}`,
    pinned: 'pinned by a person',
  },
  trends: {
    none: 'Too few days with data to draw a trend.',
    intro:
      'One value a day. Cycles, run time and water are totals of all pumps. A gap is a day without data.',
    cycles: 'Cycles per day',
    ranS: 'Run time per day',
    amps: 'Running amps',
    used: 'Water used per day',
    leak: 'Leak',
    cutIn: 'Cut-in',
    cutOut: 'Cut-out',
    perDay: (unit: string) => `${unit} per day`,
  },
  alarms: {
    head: ['Since', 'Alarm', 'Until', 'Acknowledged'],
    urgency: (mark: string) => ` (${mark.toLowerCase()})`,
    cause: (name: string) => ` Most likely cause: ${name.toLowerCase()}.`,
    acknowledged: (moment: string, by: string) => `${moment}${by}`,
    withdrawn: (moment: string) => `withdrawn ${moment}: late readings showed that the alarm was wrong`,
    active: 'active when this file was made',
  },
  checks: {
    head: ['Date', 'Check', 'Result', 'Value', 'Note', 'By'],
    left: (value: string) => `left at ${value}`,
    plans: 'Changed schedules',
    planHead: ['Check', 'Schedule', 'Since', 'By'],
  },
  water: {
    note: 'A laboratory or the health department interprets results. This page only compares figures.',
  },
  visits: {
    heading: (day: string) => `Visit of ${day}`,
    outside: 'Work outside a visit',
    windows: (days: number) =>
      `Before and after a visit: runs and whole days up to ${days} days on either side, or to the next visit.`,
  },
  acts: {
    none: 'Nobody changed how this well is monitored.',
    head: ['Date', 'Change', 'Details', 'By'],
    titles: {
      'visit-opened': 'Visit opened',
      'visit-closed': 'Visit closed',
      pinned: 'Normal values pinned',
      calibrated: 'Sensor calibrated',
      'out-of-service': 'Taken out of service',
      'back-in-service': 'Returned to service',
      'laid-up': 'Laid up',
      expected: 'Unusual use expected',
      shelved: 'Alarm shelved',
    } satisfies Partial<Record<WrittenAct['kind'], string>>,
  },
  notes: { head: ['Date', 'Note', 'By'] },
  papers: {
    intro:
      'The files are in the ZIP that this page came in. Each file name begins with the start of the SHA-256 of its content.',
    head: ['Date', 'Document', 'Type', 'File in the ZIP', 'By'],
    missing: 'its file was not available when this file was made',
  },
  data: {
    intro: (counts: string) =>
      `For programs, this page also holds the whole record, one JSON object per line, in a data block that no browser runs: ${counts}. Quantities there are in SI with the unit in the name. Times are Unix milliseconds or UTC. Another Stillwell imports this page or its ZIP with the whole history of the well:`,
    counts: {
      acts: (n: number) => formatCount(n, 'act'),
      entries: (n: number) => formatCount(n, 'entry', 'entries'),
      baselines: (n: number) => formatCount(n, 'baseline'),
      days: (n: number) => formatCount(n, 'day'),
      cycles: (n: number) => formatCount(n, 'pump cycle'),
      alarms: (n: number) => formatCount(n, 'alarm'),
    },
    command: 'stillwell import FILE',
  },
} as const;
