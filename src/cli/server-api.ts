/**
 * A running server asked over its own API, as the pages ask it. What it refuses is told in its
 * words.
 */
import type { Problem } from '../../shared/api/server-state.ts';
import { ROUTES } from '../../shared/api/routes.ts';
import type { Answer, Body, JsonRoute } from '../../shared/api/routes.ts';
import { UsageError } from './command.ts';
import { texts } from './texts.ts';

export const DEFAULT_SERVER = 'http://127.0.0.1:8420';

/** The server said no; `fields` say where and why, where it was a card that cannot be. */
export class ApiError extends Error {
  readonly status: number;
  readonly fields: NonNullable<Problem['fields']>;

  constructor(status: number, message: string, fields: Problem['fields'] = []) {
    super(message);
    this.name = texts().refused;
    this.status = status;
    this.fields = fields;
  }
}

/** Parts of the path and of the query by name. */
type RouteParams = Readonly<Record<string, string>>;

export interface ServerApi {
  /** @throws ApiError; an Error where the server cannot be reached. */
  get: <N extends JsonRoute>(name: N, parts?: RouteParams) => Promise<Answer<N>>;
  post: <N extends JsonRoute>(name: N, parts: RouteParams, body: Body<N>) => Promise<Answer<N>>;
  /** A paper's bytes to the server, and back. */
  addDocument: (parts: RouteParams, bytes: Uint8Array) => Promise<Answer<'addDocument'>>;
  document: (hash: string) => Promise<Uint8Array>;
}

/** @throws UsageError where the address is none. */
export function serverApi(address: string = DEFAULT_SERVER): ServerApi {
  if (!URL.canParse(address) || !/^https?:$/.test(new URL(address).protocol))
    throw new UsageError(
      texts().serverMustBeAnAddress({ address: JSON.stringify(address), defaultServer: DEFAULT_SERVER }),
    );
  return {
    get: (name, parts = {}) => send(address, name, parts),
    post: (name, parts, body) =>
      send(address, name, parts, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      }),
    addDocument: (parts, bytes) =>
      send(address, 'addDocument', parts, { method: 'POST', body: Uint8Array.from(bytes) }),
    document: async (hash) => {
      const response = await reach(addressOf(address, ROUTES.document.path, { hash }));
      if (!response.ok) throw await apiErrorFrom(address, response);
      return new Uint8Array(await response.arrayBuffer());
    },
  };
}

async function send<N extends JsonRoute>(
  address: string,
  name: N,
  parts: RouteParams,
  init?: RequestInit,
): Promise<Answer<N>> {
  const response = await reach(addressOf(address, ROUTES[name].path, parts), init);
  if (!response.ok) throw await apiErrorFrom(address, response);
  // The server's tests hold that every answer has the shape that the route table says.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  return (await response.json()) as Answer<N>;
}

async function apiErrorFrom(address: string, response: Response): Promise<ApiError> {
  const value: unknown = await response.json().catch(() => ({}));
  const problem: Partial<Problem> = typeof value === 'object' && value !== null ? value : {};
  return new ApiError(
    response.status,
    problem.detail ?? texts().answeredButNot({ address, status: response.status }),
    problem.fields,
  );
}

/** Parts that the path names go into it, the others into the query. */
function addressOf(address: string, path: string, parts: RouteParams): URL {
  const inPath = (part: string): boolean => path.includes(`{${part}}`);
  const named = Object.entries(parts);
  const filled = named.reduce<string>(
    (now, [part, value]) => now.replace(`{${part}}`, encodeURIComponent(value)),
    path,
  );
  const url = new URL(filled, address);
  for (const [part, value] of named) if (!inPath(part)) url.searchParams.set(part, value);
  return url;
}

async function reach(url: URL, init?: RequestInit): Promise<Response> {
  try {
    return await fetch(url, init);
  } catch (cause) {
    throw new Error(texts().cannotReachTheServer(url.origin), {
      cause,
    });
  }
}
