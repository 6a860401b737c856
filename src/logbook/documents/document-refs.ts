/** The papers that an entry points to, each by its content's hash. */
import type { ParseContext } from '../../core/domain/parse-context.ts';
import { addIssue, fieldValue } from '../../core/domain/parse-context.ts';
import { isDocumentHash } from '../../core/domain/document-hash.ts';
import { MAX_DOCUMENTS } from '../entries/limits.ts';

/** `papers`: a list of hashes; absent is none. */
export function documentRefsAt(look: ParseContext, key: string): string[] {
  const value = fieldValue(look, key);
  if (value === undefined) return [];
  if (Array.isArray(value) && value.length <= MAX_DOCUMENTS && value.every(isDocumentHash)) return value;
  addIssue(look, key, `must be a list of at most ${MAX_DOCUMENTS} papers, each by its hash`);
  return [];
}
