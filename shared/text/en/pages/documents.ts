/** Texts of the page of a well’s documents. */
import { formatCount } from '../format.ts';

export const documentsTexts = {
  takePhoto: 'Take a photo',
  chooseFiles: 'Choose photos or files',
  about: 'Description',
  aboutExample: 'well log, receipt, manual, photo of the tank',
  keywords: 'Keywords',
  yourName: 'Your name',
  name: 'Name',
  tryAgain: 'Try again',
  leaveOut: 'Remove',
  uploading: (name: string) => `Uploading ${name}`,
  saved: 'Saved.',
  intro: 'Manuals, receipts, the well log, photos of the wiring.',
  addDocuments: 'Add documents',
  addHelp:
    'PDF, JPEG, PNG, WebP, HEIC or plain text, up to 25 MiB each. Photograph the inside of an electrical box only if you already have it open and locked out. Do not open a box for a photo.',
  subject: 'the documents',
  savedDocuments: 'Documents',
  none: 'No documents yet.',
  find: 'Search names and words',
  found: (count: number, total: number) => `${count} of ${total} found.`,
  preview: (name: string) => `${name}, preview`,
  download: 'Download',
  voidDocument: 'Void document',
  voidHelp:
    'The document is no longer shown or exported. Its log entry stays, with the name of the person who voided it.',
  void: 'Void',
  reason: 'Reason',
  voided: (count: number) => `Voided: ${count}`,
  actionFailed: 'The action failed. Try again.',
  saveDocuments: (count: number) => (count < 2 ? 'Save' : `Save ${formatCount(count, 'document')}`),
  uploaded: (saved: number, refused: number) =>
    `${saved} saved${refused > 0 ? `; ${refused} not saved, see each reason` : ''}.`,
  count: (count: number) => `${formatCount(count, 'document')}.`,
  savedOn: (date: string, by?: string) => `Saved ${date}${by === undefined ? '' : ` by ${by}`}.`,
  voidedOn: (date: string, by?: string) => `voided ${date}${by === undefined ? '' : ` by ${by}`}`,
  kinds: ['well log', 'manual', 'receipt', 'laboratory report', 'permit', 'photo'],
};
