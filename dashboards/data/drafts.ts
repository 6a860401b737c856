/**
 * What was typed and not saved yet, kept by this tab till it is saved or the tab is closed: a
 * telephone drops a page while its camera is open, and a link leads away. It never leaves this
 * device.
 */
const PREFIX = 'stillwell-draft ';

export function readDraft(key: string): unknown {
  try {
    return JSON.parse(sessionStorage.getItem(PREFIX + key) ?? 'null') ?? undefined;
  } catch {
    return undefined;
  }
}

/** Undefined takes it away. A browser may refuse to keep it: then there is none. */
export function saveDraft(key: string, draft: unknown): void {
  try {
    if (draft === undefined) sessionStorage.removeItem(PREFIX + key);
    else sessionStorage.setItem(PREFIX + key, JSON.stringify(draft));
  } catch {
    // As above.
  }
}
