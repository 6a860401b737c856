/** A running server asked over its own API, as the pages ask it. What it refuses is told in its words. */
import type { Problem } from '../../../shared/api/housekeeping.ts';
import { ROUTES } from '../../../shared/api/routes.ts';
import type { Answer, Body, ShapedRoute } from '../../../shared/api/routes.ts';
import { Misuse } from './command.ts';

export const USUAL_SERVER = 'http://127.0.0.1:8420';

/** The server said no; `fields` say where and why, where it was a card that cannot be. */
export class Refused extends Error {
  readonly status: number;
  readonly fields: NonNullable<Problem['fields']>;

  constructor(status: number, message: string, fields: Problem['fields'] = []) {
    super(message);
    this.name = 'Refused';
    this.status = status;
    this.fields = fields;
  }
}

/** Parts of the path and of the query by name. */
type Parts = Readonly<Record<string, string>>;

export interface ServerApi {
  /** @throws Refused; an Error where the server cannot be reached. */
  ask: <N extends ShapedRoute>(name: N, parts?: Parts) => Promise<Answer<N>>;
  tell: <N extends ShapedRoute>(name: N, parts: Parts, body: Body<N>) => Promise<Answer<N>>;
  /** A paper's bytes to the server, and back. */
  addPaper: (parts: Parts, bytes: Uint8Array) => Promise<Answer<'addPaper'>>;
  paper: (hash: string) => Promise<Uint8Array>;
}

/** @throws Misuse where the address is none. */
export function serverApi(address: string = USUAL_SERVER): ServerApi {
  if (!URL.canParse(address) || !/^https?:$/.test(new URL(address).protocol))
    throw new Misuse(
      `Cannot ask ${JSON.stringify(address)}: --server must be an address such as ${USUAL_SERVER}`,
    );
  return {
    ask: (name, parts = {}) => send(address, name, parts),
    tell: (name, parts, body) =>
      send(address, name, parts, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      }),
    addPaper: (parts, bytes) =>
      send(address, 'addPaper', parts, { method: 'POST', body: Uint8Array.from(bytes) }),
    paper: async (hash) => {
      const response = await reach(addressOf(address, ROUTES.paper.path, { hash }));
      if (!response.ok) throw await refusal(address, response);
      return new Uint8Array(await response.arrayBuffer());
    },
  };
}

async function send<N extends ShapedRoute>(
  address: string,
  name: N,
  parts: Parts,
  init?: RequestInit,
): Promise<Answer<N>> {
  const response = await reach(addressOf(address, ROUTES[name].path, parts), init);
  if (!response.ok) throw await refusal(address, response);
  // The server's tests hold that every answer has the shape that the route table says.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  return (await response.json()) as Answer<N>;
}

async function refusal(address: string, response: Response): Promise<Refused> {
  const value: unknown = await response.json().catch(() => ({}));
  const problem: Partial<Problem> = typeof value === 'object' && value !== null ? value : {};
  return new Refused(
    response.status,
    problem.detail ?? `${address} answered ${response.status}, but not as a Stillwell does`,
    problem.fields,
  );
}

/** Parts that the path names go into it, the others into the query. */
function addressOf(address: string, path: string, parts: Parts): URL {
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
    throw new Error(
      `Cannot reach ${url.origin}: is the server running there? It is started with: stillwell serve`,
      {
        cause,
      },
    );
  }
}
