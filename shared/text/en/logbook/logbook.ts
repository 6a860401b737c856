/** Texts of the logbook: what is wrong with an entry or a table, and words for what was written. */
import { formatCount } from '../format.ts';

type Word = string | number;

export const logbookTexts = {
  yes: 'yes',
  no: 'no',
  /** "Pump 2" */
  pump: (number: Word) => `Pump ${number}`,
  table: {
    isEmpty: 'The table is empty: its first line must name the columns',
    tooManyRows: ({ max, count }: Record<'max' | 'count', number>) =>
      `The table must have at most ${formatCount(max, 'row')}: ${count}`,
    line: ({ line, problem }: Record<'line' | 'problem', Word>) => `Line ${line}: ${problem}`,
    needsCommas: 'columns must be separated by commas. Here they are separated by something else',
    noSuchField: ({ column, key }: Record<'column' | 'key', Word>) =>
      `column ${column} must be a field of the card, such as pump.motor: ${key}`,
    columnTwice: (column: Word) => `the column ${column} must be there once`,
    noWellColumn: 'one column must be called well',
    cellCount: ({ cells, columns }: Record<'cells' | 'columns', number>) =>
      `it has ${formatCount(cells, 'cell')}, but the first line has ${columns}`,
    wellName: (name: Word) => `well must be 1 to 40 of a-z, 0-9 and -: ${name}`,
    wellTwice: ({ well, line }: Record<'well' | 'line', Word>) => `${well} is in line ${line} too`,
    textAfterQuote: (cell: Word) => `cell ${cell} continues after its closing quote`,
    openQuote: 'a quote is opened and never closed',
  },
  entry: {
    cannotRead: ({ key, rule, value }: Record<'key' | 'rule' | 'value', Word>) =>
      `Cannot read entry: ${key} ${rule}: ${value}`,
    mustBeGiven: 'must be given',
    nothing: 'nothing',
    isPast: 'must be in the past, and not before 1850',
    unknownKey: (known: Word) => `is not known here. Known are ${known}`,
    notBesideEveryDays: 'must not be given with everyDays: a check has one schedule',
    dayOfYear: 'must be a day of the year, such as "10-01"',
    date: 'must be a date, such as "2027-04-01"',
    fromTo: ({ from, to }: Record<'from' | 'to', Word>) => `must be from ${from} to ${to}`,
    ranges: {
      level: 'between 30 m (100 ft) above the ground and 1,000 m below it',
      volts: 'between 0 and 700 V',
      fillTime: 'between 1 s and 24 h',
      flow: 'between 0 and 2,000 gpm (130 L/s)',
      winding: 'between 0 and 10 kohm',
      insulation: 'between 0 and 1,000,000 megohm',
      capacitor: 'between 0 and 2,000 uF',
    },
    ofFlowAlone: 'is allowed for a flow alone',
    bucketFlow: 'must be the volume of the bucket divided by its time',
    ofPrechargeAlone: 'is allowed for a precharge alone',
    ofWindingAlone: 'is allowed for a winding alone',
    ofInsulationAlone: 'is allowed for an insulation alone',
    ofWindingOrInsulationAlone: 'is allowed for a winding or an insulation alone',
    ofCapacitorAlone: 'is allowed for a capacitor alone',
    results: (max: number) => `must be a list of 1 to ${formatCount(max, 'result')}`,
    resultKeys: (keys: Word) => `must have ${keys} as text`,
    ofResult: ({ rule, at, analyte }: Record<'rule' | 'at' | 'analyte', Word>) =>
      `${rule} (result ${at}, ${analyte})`,
    flowOfTest: 'must be given, here or in the lines',
    laterLines: 'must each be later than the line before',
  },
  precharge: {
    byDrive: 'A variable-speed drive runs this pump: its instructions say which precharge the tank needs.',
    byValve:
      'A constant-pressure valve throttles this pump: its instructions say which precharge the tank needs.',
    plainTank: 'A plain tank has no precharge to set.',
    cutInUnknown: 'Cut-in is neither measured nor on the card. The target is 2 psi (14 kPa) below it.',
    cutInTooLow: 'Cut-in is too low to set a precharge by.',
  },
  /** Facts in the drawing of a well. */
  section: {
    wires: (count: number) => formatCount(count, 'wire'),
    plain: 'plain',
    precharge: (pressure: Word) => `precharge ${pressure}`,
    onAt: (pressure: Word) => `on at ${pressure}`,
    offAt: (pressure: Word) => `off at ${pressure}`,
  },
};
