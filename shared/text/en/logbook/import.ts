/** Why an export file cannot be imported. */
import { formatCount } from '../format.ts';

type Word = string | number;

export const importTexts = {
  cannot: (reason: Word) => `Cannot import: ${reason}`,
  tooLarge: (mib: Word) => `an export may have ${mib} MiB at most`,
  isNoExport: 'this is neither the ZIP nor the page of a well’s export',
  noRecord: (file: Word) => `there is no ${file} in it`,
  recordTooLarge: (mib: Word) => `its record may have ${mib} MiB at most`,
  zipIncomplete: 'the ZIP is incomplete',
  otherDocument: (file: Word) => `${file} is not the document that was exported: its hash differs`,
  documentKind: (file: Word) => `${file} is not a kind of document that is kept, whatever its name says`,
  tooManyFiles: (max: number) => `it has more than ${formatCount(max, 'file')}`,
  twoFiles: (name: Word) => `it has two files called ${name}`,
  unpackedTooLarge: (mib: Word) => `unpacked it may have ${mib} MiB at most`,
  tooManyLines: (max: number) => `it has more than ${formatCount(max, 'line')}`,
  isNoRecord: 'it does not begin as a well’s record does',
  isNewer: ({ version, known }: Record<'version' | 'known', Word>) =>
    `it was made by a newer Stillwell (format ${version}; this one reads up to ${known}). Update this one first`,
  noSuchFormat: (version: Word) => `there is no format ${version}`,
  wellName: 'the well’s name must be 1 to 40 of a-z, 0-9 and -',
  endIsMissing: 'its end is missing: it was not written or sent whole',
  hashDiffers: 'its content is not what was written: its hash does not match',
  lineTooLong: ({ line, max }: Record<'line' | 'max', Word>) =>
    `line ${line} is longer than ${max} characters`,
  lineIsNoJson: (line: Word) => `line ${line} is not JSON`,
  line: ({ line, problem }: Record<'line' | 'problem', Word>) => `line ${line}: ${problem}`,
  lineField: ({ line, field, problem }: Record<'line' | 'field' | 'problem', Word>) =>
    `line ${line}, ${field}: ${problem}`,
  isUnknown: 'is not known',
  isOfOtherWell: (well: Word) => `is of another well, ${well}`,
  isTwice: ({ what, id }: Record<'what' | 'id', Word>) => `${what} ${id} is there twice`,
  act: 'act',
  entry: 'entry',
  alarm: 'alarm',
  kindDiffers: ({ written, found }: Record<'written' | 'found', Word>) =>
    `is written as ${written} and is ${found}`,
  isNoActOfWell: (kind: Word) => `${kind} is no act of a well`,
};
