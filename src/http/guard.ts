/**
 * Who may ask, as long as nobody signs in: programs and pages of this machine alone. A page from
 * elsewhere that had its name resolved to this machine (DNS rebinding) shows by its Host; a form or
 * script of another site shows by Origin or Sec-Fetch-Site. After the fetch metadata draft (W3C)
 * and RFC 6454; the content policy is CSP level 3 with everything shut but this server.
 */
import type { Context, Next } from 'hono';
import { ProblemError, problemResponse } from './problem.ts';
import { texts } from './texts.ts';

const LOOPBACK_NAMES: readonly string[] = ['localhost', '[::1]'];

const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data:",
  "connect-src 'self'",
  "font-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const HEADERS: Record<string, string> = {
  'content-security-policy': POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy': 'camera=(), geolocation=(), microphone=()',
};

/**
 * Refuses with 403 what does not come from this machine's own pages or programs, and sets the
 * headers of every answer, its own too.
 */
export async function guard(c: Context, next: Next): Promise<void> {
  const refused = refusalOf(c);
  // Not thrown: what is thrown here becomes an answer behind this function, which would then lack
  // the headers.
  if (refused) c.res = problemResponse(refused);
  else await next();
  for (const [name, value] of Object.entries(HEADERS)) c.res.headers.set(name, value);
}

function refusalOf(c: Context): ProblemError | undefined {
  const host = c.req.header('host') ?? new URL(c.req.url).host;
  // The Host is not repeated: whoever made a name point here chooses it.
  if (!isLoopbackHost(host)) return new ProblemError(403, texts().openAsLocalhost);
  const changes = c.req.method !== 'GET' && c.req.method !== 'HEAD';
  return changes && !isFromOurPage(c, host) ? new ProblemError(403, texts().otherSite) : undefined;
}

/** Whether a Host header names this machine by a loopback name; the port does not matter. */
export function isLoopbackHost(host: string): boolean {
  const name = host.replace(/:\d{1,5}$/, '').toLowerCase();
  return LOOPBACK_NAMES.includes(name) || isLoopbackIpv4(name);
}

function isLoopbackIpv4(name: string): boolean {
  return /^127(\.\d{1,3}){3}$/.test(name) && name.split('.').every((part) => Number(part) <= 255);
}

/** A program of this machine names neither site nor origin. */
function isFromOurPage(c: Context, host: string): boolean {
  const site = c.req.header('sec-fetch-site');
  const origin = c.req.header('origin');
  return (site === undefined || site === 'same-origin') && (origin === undefined || sameHost(origin, host));
}

function sameHost(origin: string, host: string): boolean {
  return URL.canParse(origin) && new URL(origin).host === host.toLowerCase();
}
