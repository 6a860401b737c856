/** A whole server of its own and commands against it, as they are typed. */
import { afterEach } from 'vitest';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { startTestServer, type TestServer } from '../support/test-server.ts';
import { runCli, type Ran } from './command-line.ts';
import { folder } from './program.ts';

const ends: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

export interface Shop {
  station: TestServer;
  /** A command with the server's address; who writes is ines unless it is said. */
  run: (...args: string[]) => Promise<Ran>;
}

export async function openShop(): Promise<Shop> {
  const station = await startTestServer();
  ends.push(station.end);
  return {
    station,
    run: (...args) => runCli([...args, '--server', station.url], { USER: 'ines' }),
  };
}

/** A file in a folder that is gone after the test. */
export function fileOf(name: string, content?: string | Uint8Array): string {
  const here = folder();
  ends.push(here.remove);
  const path = join(here.path, name);
  if (content !== undefined) writeFileSync(path, content);
  return path;
}
