/** An export from, or an import by, a running server, over its API. */
import { z } from 'zod';
import { importResultShape } from '../../../shared/api/exports.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import type { ImportResult } from '../../http/deps.ts';
import { texts } from './texts.ts';

const problemShape = z.object({ detail: z.string() });

export async function fetchExport(
  server: string,
  well: string,
  form: 'zip' | 'html',
  units: UnitSystem | undefined,
): Promise<Uint8Array> {
  const url = addressAt(server, `/api/wells/${encodeURIComponent(well)}/export.${form}`);
  if (units !== undefined) url.searchParams.set('units', units);
  const response = await reach(url);
  if (!response.ok) throw new Error(await problemOf(response));
  return new Uint8Array(await response.arrayBuffer());
}

export async function postImport(
  server: string,
  bytes: Uint8Array,
  { sameWell, by }: { sameWell: boolean; by?: string },
): Promise<ImportResult> {
  const url = addressAt(server, '/api/imports');
  if (sameWell) url.searchParams.set('sameWell', 'true');
  if (by !== undefined) url.searchParams.set('by', by);
  const response = await reach(url, { method: 'POST', body: Uint8Array.from(bytes) });
  if (!response.ok) return { problem: await problemOf(response) };
  return importResultShape.parse(await response.json());
}

function addressAt(server: string, path: string): URL {
  if (!URL.canParse(path, server)) throw new Error(texts().serverMustBeAnAddress(server));
  return new URL(path, server);
}

async function reach(url: URL, init?: RequestInit): Promise<Response> {
  try {
    return await fetch(url, init);
  } catch (error) {
    throw new Error(texts().cannotReachTheServer(url.origin), {
      cause: error,
    });
  }
}

async function problemOf(response: Response): Promise<string> {
  const read = problemShape.safeParse(await response.json().catch(() => ({})));
  return read.success ? read.data.detail : texts().serverAnsweredWithStatus(response.status);
}
