/** Opens the port that nodes connect to, and says in one line what to do where it cannot. */
import type { Server } from 'node:net';
import { texts } from './texts.ts';

/**
 * Resolves with the port that was opened (asked for or, with 0, found). Rejects with a sentence
 * that says what to do.
 */
export function listen(server: Server, address: { host: string; port: number }): Promise<number> {
  return new Promise((resolve, reject) => {
    const onError = (error: NodeJS.ErrnoException): void =>
      reject(new Error(listenProblem(error, address), { cause: error }));
    server.once('error', onError);
    server.listen(address.port, address.host, () => {
      server.off('error', onError);
      const bound = server.address();
      resolve(typeof bound === 'object' && bound !== null ? bound.port : address.port);
    });
  });
}

/** Why the built-in broker cannot listen, and what to do. */
function listenProblem(
  { code, message }: NodeJS.ErrnoException,
  { host, port }: { host: string; port: number },
): string {
  return texts().cannotListen({ host, port, reason: reasonOf(code ?? '', host) ?? message });
}

function reasonOf(code: string, host: string): string | undefined {
  switch (code) {
    case 'EADDRINUSE':
      return texts().portInUse;
    case 'EADDRNOTAVAIL':
      return texts().noSuchAddress;
    case 'EACCES':
      return texts().portNotAllowed;
    case 'ENOTFOUND':
      return texts().unknownHostName(host);
    default:
      return undefined;
  }
}
