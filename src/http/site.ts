/**
 * The built pages, read once into memory: a few files of some ten KB. Files named by their hash
 * never change and are cached for ever; the page itself is asked for anew each time and answered
 * with 304 where it is the same.
 */
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync } from 'node:fs';
import { extname, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { texts } from './texts.ts';

interface SiteFile {
  type: string;
  body: Uint8Array<ArrayBuffer>;
  gzip: Uint8Array<ArrayBuffer>;
  etag: string;
  immutable: boolean;
}

/** By path from the site's root: `index.html`, `assets/…`. */
export type Site = ReadonlyMap<string, SiteFile>;

const TYPES: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webmanifest': 'application/manifest+json',
  '.json': 'application/json',
};
const HASHED = /-[\w-]{8}\.\w+$/;

/** @throws Error with one clear line where the pages have not been built. */
export function readSite(folder: string): Site {
  const names = listFiles(folder);
  if (!names.includes('index.html')) {
    throw new Error(texts().noIndexPage(folder));
  }
  return new Map(names.map((name) => [name, readOne(folder, name)]));
}

function listFiles(folder: string): string[] {
  try {
    return readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) =>
        join(entry.parentPath, entry.name).slice(folder.length).replaceAll('\\', '/').replace(/^\/+/, ''),
      );
  } catch (cause) {
    throw new Error(texts().cannotReadPages(folder), { cause });
  }
}

function readOne(folder: string, name: string): SiteFile {
  const body = new Uint8Array(readFileSync(join(folder, name)));
  return {
    type: TYPES[extname(name)] ?? 'application/octet-stream',
    body,
    gzip: new Uint8Array(gzipSync(body, { level: 9 })),
    etag: `"${createHash('sha256').update(body).digest('base64url').slice(0, 22)}"`,
    immutable: HASHED.test(name),
  };
}

/**
 * The answer for a path such as `/` or `/assets/x-1a2b3c4d.js`; undefined where the site has no
 * such file.
 */
export function siteResponse(site: Site, path: string, request: Headers): Response | undefined {
  const file = site.get(path === '/' ? 'index.html' : path.slice(1));
  if (!file) return undefined;
  const headers: Record<string, string> = {
    'content-type': file.type,
    etag: file.etag,
    vary: 'accept-encoding',
    'cache-control': file.immutable ? 'public, max-age=31536000, immutable' : 'no-cache',
  };
  const known = request
    .get('if-none-match')
    ?.split(',')
    .map((tag) => tag.trim().replace(/^W\//, ''));
  if (known?.includes(file.etag)) return new Response(null, { status: 304, headers });
  const packed = /\bgzip\b/.test(request.get('accept-encoding') ?? '');
  if (!packed) return new Response(file.body, { headers });
  return new Response(file.gzip, { headers: { ...headers, 'content-encoding': 'gzip' } });
}
