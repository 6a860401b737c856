/** Texts of the page that exports a well. */
export const exportTexts = {
  intro:
    'Everything recorded about this well in one file: for a new owner, a new tenant or the technician who services the pump.',
  downloadEverything: 'Download everything',
  everythingZip: 'Everything (ZIP)',
  pageOnlyHtml: 'Page only (HTML)',
  help: 'The ZIP holds a page that opens in any browser without a server, tables for a spreadsheet, the documents, and a record that another Stillwell can import without loss. The page alone does not hold the documents. Both leave out voided documents. A large file takes a moment.',
  section: 'Cross section of the well',
  drawing: 'the drawing',
  toScale: 'Depths below ground are to scale; widths and parts at the surface are not.',
  notToScale: 'This drawing is not to scale: no depth is known.',
  unknown: (facts: string) => `Not known, and shown with broken lines or left out: ${facts}.`,
  sources: 'The values come from',
  card: 'the card',
  and: 'and',
  readings: 'the readings',
};
