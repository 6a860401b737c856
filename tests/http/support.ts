/** The invented farm's app, asked without a port. */
import type { Hono } from 'hono';
import { fakeFarm } from '../browser/support/fake-deps.ts';
import type { FakeFarm } from '../browser/support/fake-deps.ts';
import { makeApp } from '../../src/http/app.ts';
import type { AppOptions } from '../../src/http/app.ts';

export interface TestApp {
  farm: FakeFarm;
  app: Hono;
  get: (path: string, headers?: Record<string, string>) => Promise<Response>;
  post: (path: string, body: unknown, headers?: Record<string, string>) => Promise<Response>;
}

export function openTestApp(options: AppOptions = {}): TestApp {
  const farm = fakeFarm();
  const app = makeApp(farm.deps, options);
  return {
    farm,
    app,
    get: async (path, headers = {}) => await app.request(path, { headers }),
    post: async (path, body, headers = {}) =>
      await app.request(path, {
        method: 'POST',
        headers: { 'content-type': 'application/json', ...headers },
        body: typeof body === 'string' ? body : JSON.stringify(body),
      }),
  };
}
