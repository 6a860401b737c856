/** What an act that was kept says of the well, and until when. */
export function actNote(kind: string, body: unknown): { text: string; untilMs?: number } {
  const fields: Record<string, unknown> = typeof body === 'object' && body !== null ? { ...body } : {};
  const { text, until } = fields;
  const untilMs = typeof until === 'string' ? Date.parse(until) : Number.NaN;
  return {
    text: typeof text === 'string' ? text : kind === 'laid-up' ? 'laid up' : 'more use',
    ...(Number.isFinite(untilMs) && { untilMs }),
  };
}
