/**
 * Data from the server that these pages came from: questions by fetch, live messages by its event
 * stream.
 */
import type { Problem } from '../../shared/api/server-state.ts';
import type { LiveMessage } from '../../shared/api/live.ts';
import type { Answer, Body, ROUTES, JsonRoute } from '../../shared/api/routes.ts';
import { RequestError, problemWords } from './source.ts';
import type {
  GetRoute,
  DataSource,
  FileRoute,
  UploadRoute,
  RouteParams,
  Path,
  OnProgress,
  PostRoute,
} from './source.ts';
import { texts } from '../texts.ts';

/** The route table's paths, checked against it by the compiler. */
const PATHS: { [N in JsonRoute]: Path<N> } = {
  wells: '/api/wells',
  well: '/api/wells/{well}',
  chart: '/api/wells/{well}/chart',
  cycles: '/api/wells/{well}/cycles',
  days: '/api/wells/{well}/days',
  baselines: '/api/wells/{well}/baselines',
  wellActs: '/api/wells/{well}/acts',
  cards: '/api/cards',
  card: '/api/wells/{well}/card',
  writeCard: '/api/wells/{well}/card',
  entries: '/api/wells/{well}/entries',
  writeEntry: '/api/wells/{well}/entries',
  labels: '/api/wells/{well}/labels',
  addDocument: '/api/wells/{well}/documents',
  checks: '/api/wells/{well}/checks',
  water: '/api/wells/{well}/water',
  figures: '/api/wells/{well}/figures',
  yieldTests: '/api/wells/{well}/yield-tests',
  due: '/api/due',
  calendarAddress: '/api/calendar-address',
  setCalendarAddress: '/api/calendar-address',
  partsList: '/api/wells/{well}/parts-list',
  visits: '/api/wells/{well}/visits',
  report: '/api/wells/{well}/visits/{visit}/report',
  guidedRun: '/api/wells/{well}/guided-run',
  readings: '/api/wells/{well}/readings',
  measuredDraw: '/api/wells/{well}/measured-draw',
  section: '/api/wells/{well}/section',
  importWell: '/api/imports',
  evaluations: '/api/wells/{well}/alarms/evaluations',
  alarms: '/api/alarms',
  acknowledge: '/api/alarms/{id}/acknowledge',
  shelve: '/api/alarms/{id}/shelve',
  act: '/api/acts',
  nodes: '/api/nodes',
  approveNode: '/api/nodes/{node}/approve',
  forget: '/api/nodes/{node}/forget',
  refused: '/api/refused',
  notices: '/api/notices',
  health: '/health',
};
const EVENTS: readonly LiveMessage['event'][] = ['connected', 'resync', 'readings', 'well', 'alarm'];
/**
 * A server that is being started again is back in this time; the browser itself stops trying after
 * some errors.
 */
const RETRY_MS = 5_000;

/** Paths that are gone to and not asked: files to be saved. */
const FILE_PATHS: { [N in FileRoute]: (typeof ROUTES)[N]['path'] } = {
  document: '/api/documents/{hash}',
  exportZip: '/api/wells/{well}/export.zip',
  exportPage: '/api/wells/{well}/export.html',
};

export const serverSource: DataSource = {
  live: true,
  get,
  post,
  subscribe,
  fileUrl: (name, parts) => buildUrl(FILE_PATHS[name], parts),
  addDocument: (parts, bytes, onProgress) => upload('addDocument', parts, bytes, onProgress),
  importWell: (parts, bytes, onProgress) => upload('importWell', parts, bytes, onProgress),
};

async function get<N extends GetRoute>(name: N, parts: RouteParams = {}): Promise<Answer<N>> {
  return await readAnswer<N>(await send(buildUrl(PATHS[name], parts)));
}

async function post<N extends PostRoute>(name: N, parts: RouteParams, body: Body<N>): Promise<Answer<N>> {
  const init = {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  };
  return await readAnswer<N>(await send(buildUrl(PATHS[name], parts), init));
}

/** Bytes are sent by the older way of asking, the only one that says how far it has come. */
async function upload<N extends UploadRoute>(
  name: N,
  parts: RouteParams,
  bytes: Blob,
  onProgress?: OnProgress,
): Promise<Answer<N>> {
  const { status, text } = await sendBytes(buildUrl(PATHS[name], parts), bytes, onProgress);
  const headers = { 'content-type': 'application/json' };
  return await readAnswer<N>(new Response(text, { status, headers }));
}

function sendBytes(
  url: string,
  bytes: Blob,
  onProgress?: OnProgress,
): Promise<{ status: number; text: string }> {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    request.open('POST', url);
    request.setRequestHeader('content-type', 'application/octet-stream');
    request.upload.addEventListener('progress', ({ loaded, total }) =>
      onProgress?.(total > 0 ? loaded / total : 0),
    );
    request.addEventListener('load', () => resolve({ status: request.status, text: request.responseText }));
    const onBroken = (): void => reject(new RequestError(texts().uploadFailed));
    for (const event of ['error', 'abort', 'timeout']) request.addEventListener(event, onBroken);
    request.send(bytes);
  });
}

/** Parts that the path names go into it, the others into the query. */
function buildUrl(path: string, parts: RouteParams): string {
  const query = new URLSearchParams();
  let filled = path;
  for (const [name, value] of Object.entries(parts)) {
    if (path.includes(`{${name}}`)) filled = filled.replace(`{${name}}`, encodeURIComponent(value));
    else query.set(name, String(value));
  }
  return query.size === 0 ? filled : `${filled}?${query}`;
}

async function send(url: string, init?: RequestInit): Promise<Response> {
  try {
    return await fetch(url, init);
  } catch (cause) {
    throw Object.assign(new RequestError(texts().noServer), { cause });
  }
}

async function readAnswer<N extends JsonRoute>(response: Response): Promise<Answer<N>> {
  const value: unknown = await response.json().catch(() => ({}));
  // The server's tests hold that every answer has the shape that the route table says.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  if (response.ok) return value as Answer<N>;
  const problem: Partial<Problem> = typeof value === 'object' && value !== null ? value : {};
  throw new RequestError(problemWords(problem), response.status, problem.fields);
}

function subscribe(
  well: string | undefined,
  onMessage: (message: LiveMessage) => void,
  onState: (up: boolean) => void,
): () => void {
  let stream: EventSource | undefined;
  let timer: number | undefined;
  const open = (): void => {
    stream = new EventSource(buildUrl('/api/live', well === undefined ? {} : { well }));
    stream.addEventListener('open', () => onState(true));
    stream.addEventListener('error', () => {
      onState(false);
      if (stream?.readyState === EventSource.CLOSED) timer = window.setTimeout(open, RETRY_MS);
    });
    for (const event of EVENTS) {
      stream.addEventListener(event, ({ data }: MessageEvent<string>) => onMessage(parseMessage(data)));
    }
  };
  open();
  return () => {
    window.clearTimeout(timer);
    stream?.close();
  };
}

/** The server's tests hold that each message has the shape that its event names. */
function parseMessage(text: string): LiveMessage {
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  return JSON.parse(text) as LiveMessage;
}
