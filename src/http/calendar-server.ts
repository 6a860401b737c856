/**
 * The one thing that answers on the farm's own network before anybody can sign in: the calendar of
 * checks, to GET and HEAD, at an address that cannot be guessed. It is a server of its own beside
 * the pages and shares no route with them, so that nothing else can come to be reachable through it
 * by a slip. It keeps nothing of a request, logs no address, reads no body, and ends each
 * connection with its answer.
 */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { Socket } from 'node:net';
import { listenErrorText } from './listen-error.ts';
import { texts } from './texts.ts';

export interface CalendarServerOptions {
  host: string;
  /** 0 takes a free one. */
  port: number;
  /** The calendar at this path; undefined where there is none. */
  feed: (path: string) => Promise<string | undefined>;
  /** Whether a peer is on a network that this computer belongs to; others are hung up on. */
  isOnLocalNetwork: (address: string) => boolean;
  /** A fault of our own in answering. */
  onError: (error: unknown) => void;
}

export interface CalendarServer {
  port: number;
  close: () => Promise<void>;
}

/**
 * The phones of a farm, each for part of a second a few times a day. One feed of 200 wells is half
 * a MB: 32 of them are 16 MB.
 */
const MAX_CONNECTIONS = 32;
/** The address has 60 characters, a phone's headers a few hundred. */
const MAX_HEADER_BYTES = 4 * 1024;
const MAX_HEADERS = 40;
/**
 * A phone sends its one packet at once, also over a slow radio; who has said nothing whole by then
 * is not served.
 */
const HEADERS_TIMEOUT_MS = 5_000;
/**
 * 1 MB over 0.5 Mbit/s is 16 s: at about twice that a connection ends, however slowly it still
 * reads.
 */
const CONNECTION_TIMEOUT_MS = 30_000;

/** No copy on the way, in no index, and nothing that a browser could make of it. */
const HEADERS = {
  'cache-control': 'no-store',
  'x-robots-tag': 'noindex, nofollow',
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'content-security-policy': "default-src 'none'",
  connection: 'close',
} as const;

/** Opens it. Rejects with one clear line where the port cannot be had. */
export function openCalendarServer(options: CalendarServerOptions): Promise<CalendarServer> {
  const { host, port } = options;
  const server = createServer(
    {
      maxHeaderSize: MAX_HEADER_BYTES,
      headersTimeout: HEADERS_TIMEOUT_MS,
      requestTimeout: HEADERS_TIMEOUT_MS,
      connectionsCheckingInterval: 1_000,
    },
    (request, response) => void respond(request, response, options),
  );
  server.maxConnections = MAX_CONNECTIONS;
  server.maxHeadersCount = MAX_HEADERS;
  server.on('connection', (socket) => handleConnection(socket, options));
  return new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) =>
      reject(
        new Error(listenErrorText(texts().calendar, { error, host, port }), {
          cause: error,
        }),
      ),
    );
    server.listen(port, host, () => {
      server.removeAllListeners('error').on('error', options.onError);
      resolve(calendarServer(server, port));
    });
  });
}

function calendarServer(server: Server, requestedPort: number): CalendarServer {
  const address = server.address();
  return {
    port: typeof address === 'object' && address ? address.port : requestedPort,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

function handleConnection(socket: Socket, options: CalendarServerOptions): void {
  if (!isAllowed(socket, options)) {
    socket.destroy();
    return;
  }
  const end = setTimeout(() => socket.destroy(), CONNECTION_TIMEOUT_MS);
  socket.once('close', () => clearTimeout(end));
}

/** What goes wrong here must end this one connection and not the program that watches the wells. */
function isAllowed(socket: Socket, { isOnLocalNetwork, onError }: CalendarServerOptions): boolean {
  try {
    return isOnLocalNetwork(socket.remoteAddress ?? '');
  } catch (error) {
    onError(error);
    return false;
  }
}

async function respond(
  request: IncomingMessage,
  response: ServerResponse,
  options: CalendarServerOptions,
): Promise<void> {
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    send(response, { status: 405, text: `${texts().onlyGetAndHead}\n`, allow: 'GET, HEAD' });
    return;
  }
  try {
    const feed = await options.feed(request.url ?? '');
    if (feed === undefined) send(response, { status: 404, text: `${texts().nothingHere}\n` });
    else send(response, { status: 200, text: feed, type: 'text/calendar; charset=utf-8' });
  } catch (error) {
    options.onError(error);
    send(response, { status: 500, text: `${texts().cannotAnswerCalendar}\n` });
  }
}

/** To HEAD the body is left out by the server itself, and its length stays. */
function send(
  response: ServerResponse,
  { status, text, type, allow }: { status: number; text: string; type?: string; allow?: string },
): void {
  response.writeHead(status, {
    ...HEADERS,
    'content-type': type ?? 'text/plain; charset=utf-8',
    'content-length': Buffer.byteLength(text),
    ...(allow !== undefined && { allow }),
  });
  response.end(text);
}
