/** Opens the port that nodes connect to, and says in one line what to do where it cannot. */
import type { Server } from 'node:net';

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
function listenProblem(error: NodeJS.ErrnoException, address: { host: string; port: number }): string {
  const where = `${address.host} port ${address.port}`;
  switch (error.code ?? '') {
    case 'EADDRINUSE':
      return `Cannot listen for nodes on ${where}: another program has this port. Stop it (often a second Stillwell or another MQTT broker), give Stillwell another port, or let it use that broker instead.`;
    case 'EADDRNOTAVAIL':
      return `Cannot listen for nodes on ${where}: this computer has no such address. Give one of its own addresses, or 0.0.0.0 for all of them.`;
    case 'EACCES':
      return `Cannot listen for nodes on ${where}: the system does not allow it. Ports under 1024 need special rights; 1883 is the usual MQTT port.`;
    case 'ENOTFOUND':
      return `Cannot listen for nodes on ${where}: the name "${address.host}" is not known here. Give an address such as 127.0.0.1 instead.`;
    default:
      return `Cannot listen for nodes on ${where}: ${error.message}`;
  }
}
