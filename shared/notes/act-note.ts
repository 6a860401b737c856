/** What an act that was kept says of the well, and until when. */
import { texts } from './texts.ts';

export function actNote(kind: string, body: unknown): { text: string; untilMs?: number } {
  const fields: Record<string, unknown> = typeof body === 'object' && body !== null ? { ...body } : {};
  const { text, until } = fields;
  const untilMs = typeof until === 'string' ? Date.parse(until) : Number.NaN;
  return {
    text: typeof text === 'string' ? text : kind === 'laid-up' ? texts().laidUp : texts().moreUse,
    ...(Number.isFinite(untilMs) && { untilMs }),
  };
}
