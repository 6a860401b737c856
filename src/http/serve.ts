/**
 * Opens the port. Loopback only, until people sign in: an address of the farm's network is refused
 * with a line that says so. A taken port is told in one line too.
 */
import { serve } from '@hono/node-server';
import type { Hono } from 'hono';
import { Server } from 'node:http';
import { listenErrorText } from './listen-error.ts';
import { isLoopbackHost } from './guard.ts';
import { texts } from './texts.ts';

export interface WebServer {
  url: string;
  port: number;
  /** Ends the live streams with their connections, and resolves when the port is free. */
  close(): Promise<void>;
}

/** `port` 0 takes a free one. @throws Error with one clear line. */
export async function serveWeb(
  app: Hono,
  { host, port }: { host: string; port: number },
): Promise<WebServer> {
  const inUrl = host.includes(':') ? `[${host}]` : host;
  if (!isLoopbackHost(inUrl)) {
    throw new Error(texts().mustStayLocal(host));
  }
  const server = await listen(app, host, port, inUrl);
  const address = server.address();
  const at = typeof address === 'object' && address ? address.port : port;
  return {
    url: `http://${inUrl}:${at}/`,
    port: at,
    close: () =>
      new Promise((resolve, reject) => {
        server.close((error) => (error ? reject(error) : resolve()));
        server.closeAllConnections();
      }),
  };
}

function listen(app: Hono, host: string, port: number, inUrl: string): Promise<Server> {
  return new Promise((resolve, reject) => {
    const server = serve({ fetch: app.fetch, hostname: host, port });
    if (!(server instanceof Server)) throw new TypeError('Cannot open the pages: HTTP/1.1 is meant');
    server.once('listening', () => resolve(server));
    server.once('error', (cause: NodeJS.ErrnoException) =>
      reject(new Error(listenErrorText(texts().pages, { error: cause, host: inUrl, port }), { cause })),
    );
  });
}
