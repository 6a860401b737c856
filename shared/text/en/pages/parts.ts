/** Texts of the pages of the parts of a well. */
export const partsTexts = {
  title: 'Parts of a well',
  intro:
    'What each part does, how it fails and what to ask an installer. The parts follow the water; then come power, protection and sensors.',
  allParts: 'All parts',
  purpose: 'What it does',
  failure: 'When it fails',
  questions: 'What to ask an installer',
  cautions: 'Cautions',
  causes: (causes: string) => `Alarm causes related to this part: ${causes}.`,
};
