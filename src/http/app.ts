/**
 * The API and the pages as one value: `makeApp(deps).request('/api/wells')` answers without a port.
 * Mounts the route table, guards every answer, and turns errors into problems.
 */
import { Hono } from 'hono';
import type { Context } from 'hono';
import { ROUTES } from '../../shared/api/routes.ts';
import { isDocumentHash } from '../core/domain/document-hash.ts';
import type { Route } from '../../shared/api/routes.ts';
import { ANSWERS } from './answers/answers.ts';
import type { CustomRoute } from './answers/answers.ts';
import { parseRequest } from './api-request.ts';
import type { ApiRequest } from './api-request.ts';
import { calendarBody } from './answers/calendar-answer.ts';
import type { WebDeps } from './deps.ts';
import { guard } from './guard.ts';
import { LiveHub } from './live-hub.ts';
import { OPENMETRICS_TYPE, formatMetrics } from './metrics.ts';
import { openApiDocument } from './openapi.ts';
import { exportPageResponse, exportZipResponse } from './answers/export-answers.ts';
import { ProblemError, problemResponse } from './problem.ts';
import { siteResponse } from './site.ts';
import type { Site } from './site.ts';
import { requireWell } from './answers/well-answers.ts';
import { texts } from './texts.ts';

export interface AppOptions {
  /** The built pages; without them only the API answers. */
  site?: Site;
  /** Where it is given, the caller can close the live streams. */
  hub?: LiveHub;
}

export function makeApp(deps: WebDeps, options: AppOptions = {}): Hono {
  const app = new Hono();
  const hub = options.hub ?? new LiveHub(deps);
  app.use(guard);
  app.onError((error) => {
    if (error instanceof ProblemError) return problemResponse(error);
    deps.onError(error);
    return problemResponse(new ProblemError(500, texts().cannotAnswer));
  });
  const custom = customHandlers(deps, hub);
  const answers: Record<string, ((c: Context) => Promise<Response>) | undefined> = custom;
  for (const [name, route] of Object.entries<Route>(ROUTES)) {
    app.on(route.method, honoPath(route.path), answers[name] ?? jsonHandler(name, deps));
  }
  app.get('*', (c) => {
    const file = options.site && siteResponse(options.site, c.req.path, c.req.raw.headers);
    if (!file) throw new ProblemError(404, texts().notFound(c.req.path));
    return file;
  });
  app.notFound((c) =>
    problemResponse(new ProblemError(404, texts().notFound(`${c.req.method} ${c.req.path}`))),
  );
  return app;
}

/** `{well}` as hono writes it. */
function honoPath(path: string): string {
  return path.replaceAll(/\{(\w+)\}/g, ':$1');
}

type JsonRouteName = keyof typeof ANSWERS;

function hasJsonAnswer(name: string): name is JsonRouteName {
  return name in ANSWERS;
}

/** @throws Error where a route has no answer at all: a fault of our own, at start. */
function jsonHandler(name: string, deps: WebDeps): (c: Context) => Promise<Response> {
  if (!hasJsonAnswer(name)) throw new Error(`Cannot mount the API: ${name} has no answer`);
  // Each row's question and answer belong together; the compiler cannot follow that from a name to
  // its row.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  const answer = ANSWERS[name] as (deps: WebDeps, ask: ApiRequest<JsonRouteName>) => unknown;
  return async (c) => json(await answer(deps, await parseRequest(name, c)));
}

function json(value: unknown, status = 200): Response {
  return Response.json(value, { status, headers: { 'cache-control': 'no-store' } });
}

/**
 * A paper never runs and never changes: its type is what its bytes are, and it may be kept by the
 * browser for ever.
 */
function documentResponse(deps: WebDeps, hash: string): Response {
  const paper = isDocumentHash(hash) ? deps.logbook.document(hash) : undefined;
  if (!paper) throw new ProblemError(404, texts().noSuchDocument);
  // Text is kept only where it is UTF-8 (src/logbook/documents/media-type.ts); a browser that is
  // not told takes it for something older.
  const type = paper.type === 'text/plain' ? 'text/plain; charset=utf-8' : paper.type;
  return new Response(Uint8Array.from(paper.bytes), {
    headers: { 'content-type': type, 'cache-control': 'private, max-age=31536000, immutable' },
  });
}

function customHandlers(deps: WebDeps, hub: LiveHub): Record<CustomRoute, (c: Context) => Promise<Response>> {
  let openApi: unknown;
  return {
    health: async (c) => {
      await parseRequest('health', c);
      const reasons = deps.healthProblems();
      const ok = reasons.length === 0;
      const upS = Math.round((deps.now() - deps.startedMs) / 1000);
      const delay = deps.loopDelay();
      return json({ ok, reasons, version: deps.version, upS, ...(delay && { delay }) }, ok ? 200 : 503);
    },
    metrics: async (c) => {
      await parseRequest('metrics', c);
      return new Response(formatMetrics(await deps.metrics()), {
        headers: { 'content-type': OPENMETRICS_TYPE },
      });
    },
    document: async (c) => {
      const ask = await parseRequest('document', c);
      return documentResponse(deps, ask.pathParam('hash'));
    },
    calendar: async (c) => {
      const { query } = await parseRequest('calendar', c);
      return new Response(await calendarBody(deps, query.well), {
        headers: { 'content-type': 'text/calendar; charset=utf-8', 'cache-control': 'no-store' },
      });
    },
    exportZip: async (c) => {
      const ask = await parseRequest('exportZip', c);
      return await exportZipResponse(deps, ask.pathParam('well'), ask.query);
    },
    exportPage: async (c) => {
      const ask = await parseRequest('exportPage', c);
      return await exportPageResponse(deps, ask.pathParam('well'), ask.query);
    },
    openApi: async (c) => {
      await parseRequest('openApi', c);
      openApi ??= openApiDocument(deps.version);
      return json(openApi);
    },
    live: async (c) => {
      const { query, lastEventId } = await parseRequest('live', c);
      if (query.well !== undefined) await requireWell(deps, query.well);
      return new Response(hub.open(query.well, lastEventId), {
        headers: {
          'content-type': 'text/event-stream',
          'cache-control': 'no-store',
        },
      });
    },
  };
}
