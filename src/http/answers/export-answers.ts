/** A well's packet on its way out as a file, and one on its way in. */
import type { Answer, Query } from '../../../shared/api/routes.ts';
import { sectionFacts } from '../../logbook/visits/section-facts.ts';
import type { ApiRequest } from '../api-request.ts';
import type { WebDeps } from '../deps.ts';
import { ProblemError } from '../problem.ts';
import { requireWell } from './well-answers.ts';

/** Sent a piece at a time, as the reader takes it: of all the papers one lies in memory. */
export async function exportZipResponse(
  deps: WebDeps,
  name: string,
  { units }: Query<'exportZip'>,
): Promise<Response> {
  const { status } = await requireWell(deps, name);
  const pieces = (await deps.exports.zip(status.well, units))[Symbol.iterator]();
  const body = new ReadableStream<Uint8Array>({
    pull(out) {
      const next = pieces.next();
      if (next.done === true) out.close();
      else out.enqueue(next.value);
    },
  });
  return new Response(body, { headers: fileHeaders('application/zip', `${status.well}-export.zip`) });
}

export async function exportPageResponse(
  deps: WebDeps,
  name: string,
  { units }: Query<'exportPage'>,
): Promise<Response> {
  const { status } = await requireWell(deps, name);
  const page = await deps.exports.page(status.well, units);
  return new Response(page, {
    headers: fileHeaders('text/html; charset=utf-8', `${status.well}-export.html`),
  });
}

/** Names of wells are a-z, 0-9 and -: nothing in them needs quoting. */
function fileHeaders(type: string, name: string): Record<string, string> {
  return {
    'content-type': type,
    'content-disposition': `attachment; filename="${name}"`,
    'cache-control': 'no-store',
  };
}

export async function sectionAnswer(
  deps: WebDeps,
  name: string,
  { units }: Query<'section'>,
): Promise<Answer<'section'>> {
  const { card, status } = await requireWell(deps, name);
  const { checkValvesM, checkValveLocations, ...facts } = sectionFacts(
    card,
    await deps.logbook.entries(status.well),
    units,
  );
  return { ...facts, checkValvesM: [...checkValvesM], checkValveLocations: [...checkValveLocations] };
}

export async function importAnswer(
  deps: WebDeps,
  { bytes, query }: ApiRequest<'importWell'>,
): Promise<Answer<'importWell'>> {
  const { by, sameWell = false } = query;
  const result = await deps.exports.importFile(bytes, { sameWell, ...(by !== undefined && { by }) });
  if ('problem' in result) throw new ProblemError(409, result.problem);
  return result;
}
