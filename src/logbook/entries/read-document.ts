/** A paper in the well's record: a manual, receipt, well log or photo. Its bytes lie beside the database under their hash. */
import { required, addIssue, textAt, fieldValue } from '../../core/domain/parse-context.ts';
import { MAX_NAME_LENGTH, MAX_NOTE_LENGTH, MAX_DOCUMENT_BYTES } from './limits.ts';
import { isDocumentHash } from '../../core/domain/document-hash.ts';
import type { BodyReader } from './read-entry.ts';

export const documentBody: BodyReader = {
  keys: ['hash', 'name', 'type', 'bytes', 'about', 'text'],
  check(look) {
    if (!isDocumentHash(fieldValue(look, 'hash')))
      addIssue(look, 'hash', 'must be the SHA-256 of the bytes in hex');
    required(look, 'name', textAt(look, 'name', MAX_NAME_LENGTH));
    required(look, 'type', textAt(look, 'type', MAX_NAME_LENGTH));
    const bytes = fieldValue(look, 'bytes');
    if (typeof bytes !== 'number' || !Number.isInteger(bytes) || bytes < 1 || bytes > MAX_DOCUMENT_BYTES)
      addIssue(look, 'bytes', `must be a whole number up to ${MAX_DOCUMENT_BYTES}`);
    textAt(look, 'about', MAX_NAME_LENGTH);
    textAt(look, 'text', MAX_NOTE_LENGTH);
  },
};
