/**
 * A whole server with nothing in it, on ports and a folder of its own, for tests of what people
 * write down.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DEFAULT_SETTINGS } from '../../src/config/read-settings.ts';
import { openServer, type RunningServer } from '../../src/server/server.ts';

export interface TestServer extends RunningServer {
  /** Of the pages, with a slash at its end. */
  url: string;
  end: () => Promise<void>;
}

/** `siteFolder`: the built pages; without them only the API answers. */
export async function startTestServer(siteFolder?: string): Promise<TestServer> {
  const dataDir = mkdtempSync(join(tmpdir(), 'stillwell-book-'));
  const server = await openServer({
    settings: {
      ...DEFAULT_SETTINGS,
      dataDir,
      broker: { kind: 'built-in', host: '127.0.0.1', port: 0 },
      web: { host: '127.0.0.1', port: 0 },
    },
    secrets: { channels: {} },
    version: '0.0.0',
    now: Date.now,
    log: () => undefined,
    allowLocal: true,
    ...(siteFolder !== undefined && { siteFolder }),
  });
  return {
    ...server,
    url: server.web.url,
    end: async () => {
      await server.close();
      rmSync(dataDir, { recursive: true, force: true });
    },
  };
}
