/** Whatever was thrown, as one line for a person. */
import { systemReason } from '../../shared/text/en/system-reasons.ts';
import { texts } from './texts.ts';

export function errorSentence(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const reason = systemReason(error);
  if (reason === undefined || !('syscall' in error)) return error.message;
  const path = 'path' in error && typeof error.path === 'string' ? ` ${error.path}` : '';
  return texts().use({ path, reason });
}
