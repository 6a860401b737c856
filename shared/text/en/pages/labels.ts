/** Texts of the page of a well’s labels. */
export const labelsTexts = {
  intro:
    'Hang the labels where people need the facts. Unknown facts are lines to fill in by hand. The code holds the facts as text: any phone reads it without a network.',
  subject: 'the labels',
  labels: 'Labels',
  print: 'Print',
  preview: 'Preview',
  sheets: 'Sheets',
  paper: 'Paper',
  firstFreePlace: 'First unused label, counted row by row',
  printHelp: (paper: 'a4' | 'letter') =>
    `Print at actual size (100 %) on ${paper === 'a4' ? 'A4' : 'Letter'}, without headers and footers.`,
  scaleBarHelp: 'Measure the bar at the foot of the sheet to check the size.',
  labelStockHelp:
    'Print on plain paper first. Hold it behind a label sheet and up to the light to check the position.',
};
