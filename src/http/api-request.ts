/**
 * Reads a question once, at the edge: its path, query and body become checked values or a problem
 * that says which part broke which rule. Behind this nobody checks again.
 */
import type { Context } from 'hono';
import type { z } from 'zod';
import { ROUTES } from '../../shared/api/routes.ts';
import type { Body, Query, Route, RouteName } from '../../shared/api/routes.ts';
import { WINDOW_MAX_MS } from '../../shared/api/queries.ts';
import { DAY_MS } from '../../shared/units/duration.ts';
import { MAX_EXPORT_BYTES, MAX_DOCUMENT_BYTES } from '../../shared/entries/limits.ts';
import { ProblemError } from './problem.ts';
import { texts } from './texts.ts';

/** A body holds an act, the largest of which is a card: a few KiB. */
const MAX_BODY_BYTES = 64 * 1024;
/**
 * A paper or packet and no more (shared/entries/limits.ts); it is refused there with better words.
 */
const MAX_BYTES = { document: MAX_DOCUMENT_BYTES + 1024, export: MAX_EXPORT_BYTES + 1024 };

export interface ApiRequest<N extends RouteName> {
  query: Query<N>;
  body: Body<N>;
  /** The body as bytes, where the route takes such; else empty. */
  bytes: Uint8Array;
  /** Part of the path by its name, decoded. */
  pathParam(name: string): string;
  lastEventId?: string;
}

/** @throws ProblemError 400, 413 or 415. */
export async function parseRequest<N extends RouteName>(name: N, c: Context): Promise<ApiRequest<N>> {
  const route: Route = ROUTES[name];
  const query = validate(route.query, c.req.query(), 'query');
  checkWindow(query);
  const body = route.body ? validate(route.body, await readJson(c), 'body') : undefined;
  const bytes = route.bytes ? await readBytes(c.req.raw, MAX_BYTES[route.bytes]) : new Uint8Array();
  const lastEventId = c.req.header('last-event-id');
  return {
    // Just read by the shape that the type is made of: the compiler cannot follow that from a name
    // to its row.
    // oxlint-disable-next-line typescript/no-unsafe-type-assertion
    query: query as Query<N>,
    // oxlint-disable-next-line typescript/no-unsafe-type-assertion
    body: body as Body<N>,
    bytes,
    pathParam: (part) => c.req.param(part) ?? '',
    ...(lastEventId === undefined ? {} : { lastEventId }),
  };
}

function validate(shape: z.ZodObject, value: unknown, where: string): Record<string, unknown> {
  const read = shape.safeParse(value);
  if (read.success) return read.data;
  const fields = read.error.issues.map((issue) => ({
    at: [where, ...issue.path].join('.'),
    // The library's sentence for what is not there speaks of its own types.
    rule: /^Invalid input: .*received undefined$/.test(issue.message) ? texts().isMissing : issue.message,
  }));
  throw new ProblemError(400, fields.map(({ at, rule }) => `${at}: ${rule}`).join('; '), fields);
}

function checkWindow({ from, to }: { from?: unknown; to?: unknown }): void {
  if (typeof from !== 'number' || typeof to !== 'number') return;
  if (to <= from) throw new ProblemError(400, texts().toMustBeLater);
  if (to - from > WINDOW_MAX_MS) {
    throw new ProblemError(400, texts().windowTooLong(WINDOW_MAX_MS / DAY_MS));
  }
}

async function readJson(c: Context): Promise<unknown> {
  const type = c.req.header('content-type')?.split(';')[0]?.trim().toLowerCase();
  if (type !== 'application/json') throw new ProblemError(415, texts().sendJson);
  const text = new TextDecoder().decode(await readBytes(c.req.raw, MAX_BODY_BYTES));
  try {
    return text.trim() === '' ? {} : JSON.parse(text);
  } catch {
    throw new ProblemError(400, texts().bodyIsNotJson);
  }
}

const KIB = 1024;
const MIB = KIB * KIB;

function formatBytes(bytes: number): string {
  return bytes < MIB ? `${Math.floor(bytes / KIB)} KiB` : `${Math.floor(bytes / MIB)} MiB`;
}

/**
 * Reads at most the limit, whatever the length header says. Each part is copied to its place as it
 * comes, in one buffer that grows where it is: a packet of 512 MiB lies in memory once, and can be
 * handed on as it is.
 */
export async function readBytes(request: Request, maxBytes: number): Promise<Uint8Array> {
  if (!request.body) return new Uint8Array();
  const body = new ArrayBuffer(0, { maxByteLength: roomFor(request, maxBytes) });
  const bytes = new Uint8Array(body);
  const reader = request.body.getReader();
  for (;;) {
    // The parts of one body come one after the other.
    // oxlint-disable-next-line no-await-in-loop
    const { done, value } = await reader.read().catch((cause: unknown) => {
      // Whoever sent it went away in the middle. Nobody hears this; it must only not pass for a
      // fault of our own.
      throw Object.assign(new ProblemError(400, texts().bodyIsIncomplete), { cause });
    });
    if (done) return bytes;
    const at = body.byteLength;
    if (at + value.byteLength > body.maxByteLength) {
      // oxlint-disable-next-line no-await-in-loop
      await reader.cancel();
      throw new ProblemError(413, texts().bodyTooLarge(formatBytes(maxBytes)));
    }
    body.resize(at + value.byteLength);
    bytes.set(value, at);
  }
}

/**
 * Addresses are set aside for as much as may come, memory only for what did. HTTP ends a body at
 * its own length header (RFC 9112, 6.3).
 */
function roomFor(request: Request, maxBytes: number): number {
  const declaredBytes = Number(request.headers.get('content-length') ?? maxBytes);
  return Number.isInteger(declaredBytes) && declaredBytes >= 0 ? Math.min(declaredBytes, maxBytes) : maxBytes;
}
