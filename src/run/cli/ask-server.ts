/** Asks the running server over its API: commands that need what only it knows. It answers this machine alone. */
import { Misuse } from './command.ts';

/** Longer than any answer of the API takes. */
const LONGEST_MS = 30_000;

/**
 * The JSON of an answer. `server` is its address, `http://localhost:8320`.
 * @throws Misuse where the address is none or the server refuses the question; Error where it can't be reached.
 */
export async function askServer(server: string, path: string): Promise<unknown> {
  if (!URL.canParse(server)) throw new Misuse(`Cannot ask the server: --server must be an address such as http://localhost:8320: ${server}`);
  const url = new URL(path, server);
  let answer: Response;
  try {
    answer = await fetch(url, { signal: AbortSignal.timeout(LONGEST_MS) });
  } catch (cause) {
    throw new Error(`Cannot ask the server: nothing answers at ${url.origin}. Is it running?`, { cause });
  }
  const value: unknown = await answer.json().catch(() => ({}));
  if (answer.ok) return value;
  throw new Misuse(`Cannot ask the server: ${problemOf(value) ?? `it answered ${answer.status}`}`);
}

function problemOf(value: unknown): string | undefined {
  if (typeof value !== 'object' || value === null || !('detail' in value)) return undefined;
  return typeof value.detail === 'string' ? value.detail : undefined;
}
