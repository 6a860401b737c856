/** Texts of the page of due checks. */
import { formatCount } from '../format.ts';

export const dueTexts = {
  whatIsDue: 'Due checks',
  show: 'Show',
  subject: 'the due checks',
  nothingDated: (wells: number) => `No checks with a due date at ${formatCount(wells, 'well')}.`,
  find: 'Find a well, site or check',
  notRecorded: 'Never recorded',
  onHold: 'On hold',
  toTarget: (title: string, target: string) => `${title} (to ${target})`,
  timeSpans: {
    0: 'overdue and today',
    7: 'within a week',
    31: 'within a month',
    92: 'within three months',
    366: 'within a year',
  },
  dueChecks: ({ checks, wells, of, late }: { checks: number; wells: number; of: number; late: number }) =>
    `${formatCount(checks, 'check')} at ${formatCount(wells, 'well')} of ${of}; ${late} overdue.`,
  notRecordedHelp: (checks: number, wells: number) =>
    `${formatCount(checks, 'check')} at ${formatCount(wells, 'well')} with no recorded date. These do not count as overdue. One visit on the proposed date catches up on all checks of a well; proposed dates are spread over the coming weeks.`,
  proposedHere: (count: number) => `Proposed in this period: ${count}.`,
};
