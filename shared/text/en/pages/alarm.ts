/** Texts of the page of an alarm. */
export const alarmTexts = {
  mostLikelyCause: 'Most likely cause',
  thenDo: 'If this is the cause:',
  otherCauses: 'Other possible causes',
  evidenceFor: 'Evidence for it',
  evidenceAgainst: 'Evidence against it',
  signs: 'What you would see',
  excludedIf: 'Not this cause if',
  lookAlikes: 'These look the same in the readings',
  toTellApart: (check: string) => `To tell them apart: ${check}.`,
  partsHelp: 'About these parts:',
  howToTellApart: 'How to tell the causes apart',
  thisAlarm: 'this alarm',
  loadingWell: 'Loading the well …',
  unknownAlarm: 'Unknown alarm',
  allWells: 'All wells',
  firstSafeStep: 'First safe step',
  canBeWrong: 'When this alarm can be wrong',
  requires: (what: string) => `It requires: ${what}`,
  wholeSite: (site: string) => `All of ${site}`,
  sinceAndNotified: (since: string, notified: string) => `Since ${since}; notified ${notified}.`,
  withdrawn: (since: string, withdrawn: string) =>
    `${since} Withdrawn ${withdrawn}: late readings showed that the alarm was wrong.`,
  cleared: (since: string, cleared: string) => `${since} Cleared ${cleared}; the cause may still be there.`,
  figures: 'Figures',
  haveReady: 'Have ready for the technician',
  missingOnCard: (missing: string) =>
    `Missing from the card, though a technician may ask for it: ${missing}.`,
  explainedBy: 'Another active alarm explains this one. Start there:',
  place: (well: string, pump?: string, node?: string) =>
    [
      well,
      ...(pump === undefined ? [] : [`pump ${pump}`]),
      ...(node === undefined ? [] : [`node ${node}`]),
    ].join(', '),
};
