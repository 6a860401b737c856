/** Texts of the page of a well’s visits. */

import { partName, PARTS_OF_WORK } from './parts-of-work.ts';

interface PastVisit {
  openedBy: string | undefined;
  closed: string | undefined;
  newBaseline: boolean;
}

export const visitTexts = {
  for: (reasons: string) => `For: ${reasons}`,
  unknown: (facts: string) => `Not known: ${facts}.`,
  always: (parts: string) => `Always: ${parts}`,
  beforeAndAfterOf: (well: string) => `Before and after, ${well}`,
  reportBasis: (days: number, caveat: string) =>
    `Runs and whole days up to ${days} days on either side, or to the next visit. Spread is 1.4826 × the median absolute deviation. ${caveat}`,
  thisWell: 'this well',
  visitsSubject: 'the visits',
  partsToBring: 'Parts to bring',
  partsSubject: 'the parts list',
  pastVisits: 'Past visits',
  none: 'No visits yet.',
  openVisit: 'Open a visit',
  openVisitHelp:
    'Alarms are suppressed and nothing is learned while a visit is open. Open it when you start work and close it when the work is done.',
  visitIsOpen: 'A visit is open',
  workSoFar: 'Work so far',
  recordWork: 'Record work and parts',
  closeVisit: 'Close the visit',
  closeVisitHelp:
    'Closing the visit clears active alarms. The before/after report compares runs and days before the visit with those after it. It needs several runs after the visit.',
  learnAgain: 'Learn normal values again',
  learnAgainHelp: '(needed after work on pump, motor, tank or switch; no such work is recorded)',
  beforeAndAfter: 'Before and after',
  backToVisits: 'Back to visits',
  print: 'Print this page',
  reportTitle: 'Before/after report of a visit',
  reportSubject: 'the before/after report',
  save: 'Save',
  workDone: 'Work done',
  partsInstalled: 'Parts installed, one per line',
  affected: 'Affected parts',
  doneByField: 'Done by (person or company)',
  boxPhotoCaution:
    'Photograph the inside of a box only if you already have it open and locked out. Leave a closed box closed.',
  workPhotos: 'Photos of the work',

  openSince: (since: string, by?: string) =>
    `Open since ${since}${byWhom(',', by)}. Alarms are suppressed until you close the visit.`,
  learnAgainBecause: (parts: readonly string[]) =>
    `(the work affected ${parts.map(partName).join(', ')}: earlier normal values no longer apply)`,
  pastVisit: ({ openedBy, closed, newBaseline }: PastVisit) =>
    [
      ...(openedBy === undefined ? [] : [`Opened by ${openedBy}.`]),
      ...(closed === undefined ? [] : [`Closed ${closed}.`]),
      ...(newBaseline ? ['Normal values were learned again.'] : []),
    ].join(' '),
  /** By the names of shared/entries/entry-fields.ts. */
  partsOfWork: PARTS_OF_WORK,
};

function byWhom(lead: string, name: string | undefined): string {
  return name === undefined ? '' : `${lead} by ${name}`;
}
