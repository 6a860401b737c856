/** Data from the server that these pages came from: questions by fetch, live messages by its event stream. */
import type { Problem } from '../../shared/api/housekeeping.ts';
import type { LiveMessage } from '../../shared/api/live.ts';
import type { Answer, Body, ROUTES, ShapedRoute } from '../../shared/api/routes.ts';
import { AskError, problemWords } from './source.ts';
import type { Asked, DataSource, FileRoute, Given, Parts, Path, Sent, Told } from './source.ts';

/** The route table's paths, checked against it by the compiler. */
const PATHS: { [N in ShapedRoute]: Path<N> } = {
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
  addPaper: '/api/wells/{well}/papers',
  checks: '/api/wells/{well}/checks',
  water: '/api/wells/{well}/water',
  due: '/api/due',
  calendarAddress: '/api/calendar-address',
  setCalendarAddress: '/api/calendar-address',
  bring: '/api/wells/{well}/bring',
  visits: '/api/wells/{well}/visits',
  proof: '/api/wells/{well}/visits/{visit}/proof',
  guidedRun: '/api/wells/{well}/run',
  readings: '/api/wells/{well}/readings',
  measuredDraw: '/api/wells/{well}/measured-draw',
  section: '/api/wells/{well}/section',
  takePacket: '/api/packets',
  alarms: '/api/alarms',
  acknowledge: '/api/alarms/{id}/acknowledge',
  shelve: '/api/alarms/{id}/shelve',
  act: '/api/acts',
  nodes: '/api/nodes',
  letIn: '/api/nodes/{node}/let-in',
  forget: '/api/nodes/{node}/forget',
  refused: '/api/refused',
  notices: '/api/notices',
  health: '/health',
};
const EVENTS: readonly LiveMessage['event'][] = ['here', 'again', 'readings', 'well', 'alarm'];
/** A server that is being started again is back in this time; the browser itself stops trying after some errors. */
const TRY_AGAIN_MS = 5_000;

/** Paths that are gone to and not asked: files to be saved. */
const FILES: { [N in FileRoute]: (typeof ROUTES)[N]['path'] } = {
  paper: '/api/papers/{hash}',
  packet: '/api/wells/{well}/packet.zip',
  packetPage: '/api/wells/{well}/packet.html',
};

export const serverSource: DataSource = {
  live: true,
  ask,
  tell,
  listen,
  address: (name, parts) => address(FILES[name], parts),
  addPaper: (parts, bytes, sent) => give('addPaper', parts, bytes, sent),
  takePacket: (parts, bytes, sent) => give('takePacket', parts, bytes, sent),
};

async function ask<N extends Asked>(name: N, parts: Parts = {}): Promise<Answer<N>> {
  return await answer<N>(await send(address(PATHS[name], parts)));
}

async function tell<N extends Told>(name: N, parts: Parts, body: Body<N>): Promise<Answer<N>> {
  const init = {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  };
  return await answer<N>(await send(address(PATHS[name], parts), init));
}

/** Bytes are sent by the older way of asking, the only one that says how far it has come. */
async function give<N extends Given>(name: N, parts: Parts, bytes: Blob, sent?: Sent): Promise<Answer<N>> {
  const { status, text } = await sendBytes(address(PATHS[name], parts), bytes, sent);
  const headers = { 'content-type': 'application/json' };
  return await answer<N>(new Response(text, { status, headers }));
}

function sendBytes(url: string, bytes: Blob, sent?: Sent): Promise<{ status: number; text: string }> {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    request.open('POST', url);
    request.setRequestHeader('content-type', 'application/octet-stream');
    request.upload.addEventListener('progress', ({ loaded, total }) =>
      sent?.(total > 0 ? loaded / total : 0),
    );
    request.addEventListener('load', () => resolve({ status: request.status, text: request.responseText }));
    const broken = (): void =>
      reject(
        new AskError('It did not arrive whole: the server can’t be reached, or the line broke. Try again.'),
      );
    for (const event of ['error', 'abort', 'timeout']) request.addEventListener(event, broken);
    request.send(bytes);
  });
}

/** Parts that the path names go into it, the others into the query. */
function address(path: string, parts: Parts): string {
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
    throw Object.assign(new AskError('The server can’t be reached. Is it running?'), { cause });
  }
}

async function answer<N extends ShapedRoute>(response: Response): Promise<Answer<N>> {
  const value: unknown = await response.json().catch(() => ({}));
  // The server's tests hold that every answer has the shape that the route table says.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  if (response.ok) return value as Answer<N>;
  const problem: Partial<Problem> = typeof value === 'object' && value !== null ? value : {};
  throw new AskError(problemWords(problem), response.status, problem.fields);
}

function listen(
  well: string | undefined,
  hear: (message: LiveMessage) => void,
  state: (up: boolean) => void,
): () => void {
  let stream: EventSource | undefined;
  let timer: number | undefined;
  const open = (): void => {
    stream = new EventSource(address('/api/live', well === undefined ? {} : { well }));
    stream.addEventListener('open', () => state(true));
    stream.addEventListener('error', () => {
      state(false);
      if (stream?.readyState === EventSource.CLOSED) timer = window.setTimeout(open, TRY_AGAIN_MS);
    });
    for (const event of EVENTS) {
      stream.addEventListener(event, ({ data }: MessageEvent<string>) => hear(messageOf(data)));
    }
  };
  open();
  return () => {
    window.clearTimeout(timer);
    stream?.close();
  };
}

/** The server's tests hold that each message has the shape that its event names. */
function messageOf(text: string): LiveMessage {
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  return JSON.parse(text) as LiveMessage;
}
