import { describe, expect, test } from 'vitest';
import { isLoopbackHost } from '../../src/http/guard.ts';
import { openTestApp } from './support.ts';

describe('isOurHost', () => {
  test.each([
    ['localhost', true],
    ['localhost:8080', true],
    ['LOCALHOST:8080', true],
    ['127.0.0.1:8080', true],
    ['127.8.9.1', true],
    ['[::1]:8080', true],
    ['127.0.0.1.example.org', false],
    ['127.0.0.999', false],
    ['localhost.example.org', false],
    ['farm.local:8080', false],
    ['192.168.1.4', false],
    ['', false],
  ])('%s: %s', (host, ours) => expect(isLoopbackHost(host)).toBe(ours));
});

describe('guard', () => {
  test('a name that was made to point here (DNS rebinding) is refused', async () => {
    const { get } = openTestApp();
    const response = await get('/api/wells', { host: 'rebound.example.org' });
    expect(response.status).toBe(403);
    expect(response.headers.get('content-type')).toBe('application/problem+json');
  });

  test.each([
    ['no origin: a program of this machine', {}, 200],
    ['our own page', { origin: 'http://localhost', 'sec-fetch-site': 'same-origin' }, 200],
    ['a page of another site', { origin: 'https://example.org' }, 403],
    ['another port of this machine', { origin: 'http://localhost:3000' }, 403],
    ['a page that hides its origin', { origin: 'null' }, 403],
    ['a form of another site', { 'sec-fetch-site': 'cross-site' }, 403],
    ['another name on the same site', { 'sec-fetch-site': 'same-site' }, 403],
  ])('POST from %s', async (_who, headers, status) => {
    const { post, farm } = openTestApp();
    const response = await post('/api/acts', { act: { kind: 'visit-opened', well: 'orchard' } }, headers);
    expect(response.status).toBe(status);
    expect(farm.acts.length).toBe(status === 200 ? 1 : 0);
  });

  test.each([
    ['a Host that is not ours', 'GET', { host: 'rebound.example.org' }],
    ['a page of another site', 'POST', { 'sec-fetch-site': 'cross-site' }],
  ])('the refusal of %s carries the security headers and repeats nothing', async (_who, method, headers) => {
    const response = await openTestApp().app.request('/api/acts', { method, headers });
    expect(response.status).toBe(403);
    expect(response.headers.get('content-type')).toBe('application/problem+json');
    expect(response.headers.get('content-security-policy')).toContain("default-src 'none'");
    expect(response.headers.get('x-content-type-options')).toBe('nosniff');
    expect(response.headers.get('cross-origin-resource-policy')).toBe('same-origin');
    expect(response.headers.get('referrer-policy')).toBe('no-referrer');
    expect(await response.text()).not.toContain('example.org');
  });

  test.each(['/api/wells', '/api/nothing', '/health'])('%s carries the content policy', async (path) => {
    const { get } = openTestApp();
    const { headers } = await get(path);
    expect(headers.get('content-security-policy')).toContain("default-src 'none'");
    expect(headers.get('content-security-policy')).not.toContain('unsafe');
    expect(headers.get('x-content-type-options')).toBe('nosniff');
    expect(headers.get('access-control-allow-origin')).toBeNull();
  });
});
