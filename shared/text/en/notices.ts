/** Texts of notices: subject and message around the words of an alarm; who is notified and why. */
import type { Priority } from './alarms/kinds.ts';

export const noticeTexts = {
  stillActive: 'still active',
  changed: 'changed',
  urgent: (place: string, title: string, urgency: string) => `${place}: ${title} (${urgency})`,
  cleared: (place: string, title: string) => `${place}: ${title} (cleared)`,
  withdrawn: (place: string, title: string) => `${place}: ${title} (withdrawn)`,
  someWell: 'a well',
  pump: (place: string, pump: string) => `${place}, pump ${pump}`,
  since: (moment: string) => `Since ${moment}.`,
  reopened: 'It was reported as cleared. Late readings show that it is still active.',
  likelyCauses: 'Likely causes',
  toTellApart: (check: string) => `To tell them apart: ${check}`,
  firstSafeStep: 'First safe step',
  figures: 'Figures',
  canBeWrong: 'When this alarm can be wrong',
  cautions: 'Cautions',
  clearedAt: (moment: string) => `Cleared ${moment}.`,
  withdrawnAt: (moment: string) => `Withdrawn ${moment}: late readings show that the alarm was wrong.`,
  reasonWas: (reason: string) => `It reported: ${reason}`,
  causeMayRemain: 'The cause may still be there.',
  test: {
    subject: 'Stillwell test: no alarm',
    text: (to: string) =>
      `This is a test. No well has an alarm.\n\nNotices reach ${to} this way. An alarm also names the well and says what to do.\n`,
    why: 'This is a test.',
  },
  /** Why somebody is notified or not: in the log and in the list of notices. */
  decisions: {
    withdrawnBefore: 'late readings withdrew the alarm',
    clearedBefore: 'the alarm cleared before anybody was notified',
    shelved: 'the alarm is shelved',
    otherWells: (to: string) => `the settings notify ${to} of other wells only`,
    wanted: (to: string, priority: Priority) => `the settings notify ${to} of priority ${priority}`,
    notWanted: (to: string, priority: Priority) => `the settings do not notify ${to} of priority ${priority}`,
    raisedPriority: (from: Priority, to: Priority) => `its priority rose from ${from} to ${to}`,
    minutesMatter: 'minutes matter now',
    stillActive: (to: string) => `${to} was notified that it cleared, and late readings show it active`,
    sameAction: 'nothing changed that calls for another action',
    newCauseNow: 'another cause is now the most likely, and the alarm calls for action now',
    newCauseLater: 'another cause is now the most likely, and the alarm does not call for action now',
    notifiedBefore: (to: string) => `${to} was notified of it`,
    notNotifiedBefore: (to: string) => `${to} was not notified of it`,
    endOfNote: 'the end of an alarm of priority note is not reported',
    test: 'somebody asked for a test',
  },
};
