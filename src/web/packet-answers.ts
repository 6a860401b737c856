/** A well's packet on its way out as a file, and one on its way in. */
import type { Answer, Query } from '../../shared/api/routes.ts';
import { sectionFacts } from '../book/section-facts.ts';
import type { Ask } from './ask.ts';
import type { WebDeps } from './deps.ts';
import { ProblemError } from './problem.ts';
import { wellNamed } from './well-answers.ts';

/** Sent a piece at a time, as the reader takes it: of all the papers one lies in memory. */
export function packetZip(deps: WebDeps, name: string, { units }: Query<'packet'>): Response {
  const { now } = wellNamed(deps, name);
  const pieces = deps.packets.zip(now.well, units)[Symbol.iterator]();
  const body = new ReadableStream<Uint8Array>({
    pull(out) {
      const next = pieces.next();
      if (next.done === true) out.close();
      else out.enqueue(next.value);
    },
  });
  return new Response(body, { headers: asFile('application/zip', `${now.well}-packet.zip`) });
}

export function packetPage(deps: WebDeps, name: string, { units }: Query<'packetPage'>): Response {
  const { now } = wellNamed(deps, name);
  const page = deps.packets.page(now.well, units);
  return new Response(page, { headers: asFile('text/html; charset=utf-8', `${now.well}-packet.html`) });
}

/** Names of wells are a-z, 0-9 and -: nothing in them needs quoting. */
function asFile(type: string, name: string): Record<string, string> {
  return {
    'content-type': type,
    'content-disposition': `attachment; filename="${name}"`,
    'cache-control': 'no-store',
  };
}

export function sectionAnswer(deps: WebDeps, name: string, { units }: Query<'section'>): Answer<'section'> {
  const { card, now } = wellNamed(deps, name);
  const { checkValvesM, checkValvesBeside, ...facts } = sectionFacts(
    card,
    deps.desk.entries(now.well),
    units,
  );
  return { ...facts, checkValvesM: [...checkValvesM], checkValvesBeside: [...checkValvesBeside] };
}

export async function takePacket(
  deps: WebDeps,
  { bytes, query }: Ask<'takePacket'>,
): Promise<Answer<'takePacket'>> {
  const { by, same = false } = query;
  const result = await deps.packets.take(bytes, { same, ...(by !== undefined && { by }) });
  if ('no' in result) throw new ProblemError(409, result.no);
  return result;
}
