/** Texts of the commands for cards. */
import { formatCount } from '../format.ts';

type Word = string | number;

export const cardCommandTexts = {
  cannotBeRead: ({ cards, wrong, questions }: Record<'cards' | 'wrong' | 'questions', number>) =>
    `${formatCount(cards, 'card')}: ${wrong} cannot be read; ${formatCount(questions, 'question')}.`,
  isThisRight: (question: Word) => `is this right? ${question}`,
  exportedTo: ({ cards, file }: { cards: number; file: string }) =>
    `${formatCount(cards, 'card')} exported to ${file}`,
  itsNameMustEnd: (path: Word) => `Cannot read ${path}: its name must end in .csv or .json`,
  read: ({ path, problem }: Record<'path' | 'problem', Word>) => `Cannot read ${path}: ${problem}`,
  itMustBeACard: 'it must be a card with its well',
  isInTheListTwice: (well: Word) => `${well} is in the list twice`,
  itMustBeJson: (path: Word) => `Cannot read ${path}: it must be JSON`,
  nothingWasImported: {
    line: (wrong: number, all: number) =>
      `Nothing was imported: ${wrong} of ${formatCount(all, 'line')} cannot be read. Correct them, or skip them with --skip-bad`,
    card: (wrong: number, all: number) =>
      `Nothing was imported: ${wrong} of ${formatCount(all, 'card')} cannot be read. Correct them, or skip them with --skip-bad`,
  },
  /** Rows of a table, cards of a list. */
  rows: {
    line: { one: (at: number) => `line ${at}`, many: (count: number) => formatCount(count, 'line') },
    card: { one: (at: number) => `card ${at}`, many: (count: number) => formatCount(count, 'card') },
  },
  unchanged: (same: number, skipped: number) =>
    skipped === 0 ? `${same} unchanged` : `${same} unchanged, ${skipped} skipped`,
  newWell: (well: string) => `${well}, new`,
  /** Of the bar of progress; the names in braces stay. */
  progress: 'cards [{bar}] {value} of {total}, {eta_formatted} left',
  switch: 'switch',
  removed: 'removed',
  cardsWouldBeImported: ({
    changesCount,
    fresh,
    same,
  }: Record<'changesCount' | 'fresh', number> & { same: string }) =>
    `${formatCount(changesCount, 'card')} would be imported (${fresh} for new wells), ${same}. Nothing was changed.`,
  ofCardsWereImported: ({ why, n, changesCount }: Record<'n' | 'changesCount', number> & { why: string }) =>
    `${why}\nImported: ${n} of ${formatCount(changesCount, 'card')}. Run the command again to continue.`,
  cardsImportedOfNewWells: ({ n, fresh, same }: Record<'n' | 'fresh', number> & { same: string }) =>
    `${formatCount(n, 'card')} imported (${fresh} for new wells), ${same}.`,
  importedAsTheyAre: (odd: number) =>
    `Imported as they are, although they look wrong: ${formatCount(odd, 'value')}. To see them: stillwell card show WELL`,
  cardOfSaysSoAlready: (well: Word) => `Nothing to change: the card of ${well} already has these values.`,
  savedTheCard: (well: Word) => `Saved the card of ${well}.`,
  isThisRightOf: ({ key, question }: Record<'key' | 'question', Word>) =>
    `Is this right? ${key}: ${question}`,
  nothingWasChanged: (rest: Word) => `Nothing was changed. ${rest}`,
  itMustBeAField: (field: Word) =>
    `Cannot read "${field}": it must be a field of the card and its value, such as pump.motor="3/4 hp"`,
  itHasACardAlready: (well: Word) => `Cannot create ${well}: it already has a card`,
  thereIsNoSuchWell: (well: Word) =>
    `Cannot change the card of ${well}: there is no such well. To create it, add --new`,
  thereIsNoWellYet: 'No wells yet. To create one: stillwell card set NAME timeZone=… --new',
  noCardYet: 'no card yet',
  cardOf: (atMs: Word) => `card of ${atMs}`,
  changed: ({ well, moment, by }: { well: string; moment: string; by: string | undefined }) =>
    by === undefined ? `${well}, changed ${moment}` : `${well}, changed ${moment} by ${by}`,
  andNoCardYet: (well: Word) => `${well}, no card yet`,
  onTheCardAndMeasured: '\nOn the card and measured',
  theyDiffer: (comparison: Word) => `${comparison}; they differ`,
  isThisRightHeading: '\nIs this right?',
  hasNoCardYet: (well: Word) => `${well} has no card yet.`,
  noNameGiven: 'no name given',
  firstCard: (by: Word) => `${by}, the first card`,
  nameOfTheWell: 'Name of the well.',
  showChangeCheckImport:
    'Show, change, check, import and export cards. A card holds what is known about a well. The server must be running, except for "check".',
  listAllWellsWithTheir: 'List all wells, with their state and the date of their card.',
  printTheCard: 'Print the card of a well, the questions about it, and the measured values.',
  listTheChanges: 'List the changes of a card: who changed what, and when.',
  changeFieldsOfACard: 'Change fields of a card. To remove a field, leave the value after its = empty.',
  fieldsAsCardShowNames: 'Fields, named as in "card show". Write quantities with their unit.',
  createTheWell: 'Create the well.',
  examplesOfCardSet:
    '\nExamples:\n  stillwell card set mill --new timeZone=America/Denver switch=40/60\n  stillwell card set mill pump.motor="3/4 hp" tank.precharge="38 psi" tank.maker=',
  checkAFileOfCards: 'Check a file of cards without a server: what cannot be read, and what looks wrong.',
  cardJsonAList: 'A card (.json), a list of cards (.json) or a table (.csv).',
  importATableCsv:
    'Import a table (.csv) or a list of whole cards (.json). If a row is wrong, nothing is imported, except with --skip-bad.',
  tableOrList: 'The table or list.',
  skipRowsThatAreWrong: 'Skip rows that are wrong, and import the others.',
  printWhatWouldChange: 'Print what would change, and change nothing.',
  tableIsUtfWithCommas:
    '\nA table is UTF-8 with commas (RFC 4180): one row for each well, one column for each field.\nColumns have the names that "card show" prints: well, site, pump.motor, switch, tank.precharge.\nAn empty cell leaves the field as it is. A single - removes it. Lists are separated by "; ".\nA well with several pumps has columns such as pumps.p1.pump.motor and pumps.p2.pump.motor.\n\nExample:\n  stillwell card import alder-bench.csv --dry-run',
  exportAllCardsAsJson: 'Export all cards as JSON, or as a table that "card import" reads.',
  fileToMakeJson: 'File to create (.json or .csv). An existing file is not overwritten. Default: stdout.',
  exportATable: 'Export a table.',
  includeColumnsThatNoCard: 'Include columns that no card fills.',
  examplesOfCardExport: '\nExample:\n  stillwell card export alder-bench.csv',
};
