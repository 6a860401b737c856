/** A whole server of its own and commands against it, as they are typed. */
import { afterEach } from 'vitest';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Command } from '../../src/cli/command.ts';
import { startTestServer, type TestServer } from '../support/test-server.ts';
import { folder } from './program.ts';

const ends: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

export interface Ran {
  code: number;
  out: string[];
  err: string[];
}

export interface Shop {
  station: TestServer;
  /** The command with the server's address; who writes is ines unless it is said. */
  run: (command: Command, ...args: string[]) => Promise<Ran>;
}

export async function openShop(): Promise<Shop> {
  const station = await startTestServer();
  ends.push(station.end);
  const run = async (command: Command, ...args: string[]): Promise<Ran> => {
    const [out, err]: [string[], string[]] = [[], []];
    const code = await command.run([...args, '--server', station.url], {
      out: (line) => out.push(...line.split('\n')),
      err: (line) => err.push(line),
      env: { USER: 'ines' },
      progress: false,
    });
    return { code, out, err };
  };
  return { station, run };
}

/** A file in a folder that is gone after the test. */
export function fileOf(name: string, content?: string | Uint8Array): string {
  const here = folder();
  ends.push(here.remove);
  const path = join(here.path, name);
  if (content !== undefined) writeFileSync(path, content);
  return path;
}
