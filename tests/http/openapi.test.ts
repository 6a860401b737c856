import { Validator } from '@seriousme/openapi-schema-validator';
import { describe, expect, test } from 'vitest';
import { problemShape } from '../../shared/api/server-state.ts';
import { ROUTES } from '../../shared/api/routes.ts';
import type { Route, RouteName } from '../../shared/api/routes.ts';
import { openApiDocument } from '../../src/http/openapi.ts';
import { FARM_NOW_MS } from '../browser/support/farm.ts';
import { smallPage } from '../support/export-well.ts';
import { openTestApp } from './support.ts';

const alarm = encodeURIComponent(`orchard/p1/long-run/${FARM_NOW_MS - 3.75 * 3_600_000}`);
const window = `from=${FARM_NOW_MS - 3 * 86_400_000}&to=2026-07-15T00:00:00Z`;

/** One question for each route, such as a page asks it. */
const QUESTIONS: Record<RouteName, { path: string; body?: unknown; bytes?: string; status?: number }> = {
  wells: { path: '/api/wells' },
  well: { path: '/api/wells/orchard' },
  chart: { path: `/api/wells/orchard/chart?channel=pressure&points=50&${window}` },
  cycles: { path: `/api/wells/orchard/cycles?limit=5&${window}` },
  days: { path: `/api/wells/orchard/days?levels=true&${window}` },
  baselines: { path: '/api/wells/orchard/baselines' },
  wellActs: { path: '/api/wells/house-hill/acts' },
  cards: { path: '/api/cards' },
  card: { path: '/api/wells/orchard/card' },
  writeCard: { path: '/api/wells/orchard/card', body: { card: { well: 'orchard' }, by: 'Ines' } },
  entries: { path: '/api/wells/orchard/entries' },
  writeEntry: {
    path: '/api/wells/orchard/entries',
    body: { entry: { kind: 'note', text: 'The key hangs in the barn.' }, by: 'Ines' },
  },
  labels: { path: '/api/wells/orchard/labels' },
  addDocument: { path: '/api/wells/orchard/documents?name=key.txt', bytes: 'The key hangs in the barn.' },
  document: { path: `/api/documents/${'0'.repeat(64)}`, status: 404 },
  checks: { path: '/api/wells/orchard/checks' },
  water: { path: '/api/wells/orchard/water' },
  due: { path: '/api/due?until=2027-12-31' },
  calendar: { path: '/calendar.ics?well=orchard' },
  calendarAddress: { path: '/api/calendar-address?well=orchard' },
  setCalendarAddress: { path: '/api/calendar-address', body: { action: 'ensure' } },
  partsList: { path: '/api/wells/orchard/parts-list' },
  visits: { path: '/api/wells/house-hill/visits' },
  report: { path: '/api/wells/house-hill/visits/a1/report' },
  guidedRun: { path: `/api/wells/house-hill/guided-run?since=${FARM_NOW_MS - 60_000}&pump=p1` },
  readings: { path: '/api/wells/orchard/readings' },
  figures: { path: '/api/wells/orchard/figures' },
  yieldTests: { path: '/api/wells/orchard/yield-tests' },
  measuredDraw: {
    path: '/api/wells/orchard/measured-draw?drawn=5%20gal&before=58%20psi&after=44%20psi&fellAway=true',
  },
  section: { path: '/api/wells/orchard/section?units=us' },
  exportZip: { path: '/api/wells/orchard/export.zip' },
  exportPage: { path: '/api/wells/orchard/export.html?units=metric' },
  importWell: { path: '/api/imports', bytes: smallPage() },
  evaluations: { path: '/api/wells/orchard/alarms/evaluations' },
  alarms: { path: '/api/alarms?active=true' },
  acknowledge: { path: `/api/alarms/${alarm}/acknowledge`, body: { by: 'Ines' } },
  shelve: { path: `/api/alarms/${alarm}/shelve`, body: { untilMs: FARM_NOW_MS + 3_600_000 } },
  act: { path: '/api/acts', body: { act: { kind: 'visit-opened', well: 'orchard' } } },
  nodes: { path: '/api/nodes' },
  approveNode: { path: '/api/nodes/creek-trough/approve', body: {} },
  forget: { path: '/api/nodes/creek-trough/forget', body: {} },
  refused: { path: '/api/refused?limit=10' },
  notices: { path: '/api/notices?state=sent' },
  live: { path: '/api/live?well=orchard' },
  openApi: { path: '/api/openapi.json' },
  health: { path: '/health' },
  metrics: { path: '/metrics' },
};

describe('openApiDocument', () => {
  // Reference: the OpenAPI 3.1 schema of the OpenAPI Initiative, carried by
  // @seriousme/openapi-schema-validator.
  test('is a valid OpenAPI 3.1 document', async () => {
    const validator = new Validator();
    const document = openApiDocument('0.1.0');
    const result = await validator.validate(structuredClone(document));
    expect(result).toEqual({ valid: true });
    expect(validator.version).toBe('3.1');
  });

  test('describes cards, acts and entries field by field', () => {
    const { Card, Act } = openApiDocument('0.1.0').components.schemas;
    expect(Card).toMatchObject({
      properties: {
        relief: { type: 'string', description: expect.stringContaining('a pressure in kPa, psi or bar') },
        pump: { properties: { phase: { enum: [1, 3] }, protector: { required: ['restart'] } } },
      },
      required: ['well'],
      additionalProperties: false,
    });
    const { WrittenEntry, Entry } = openApiDocument('0.1.0').components.schemas;
    expect(JSON.stringify(WrittenEntry)).toContain('"bucket":{"type":"object"');
    expect(Entry).toMatchObject({ properties: { body: { $ref: '#/components/schemas/EntryBody' } } });
    expect(JSON.stringify(Act)).toContain('"card":{"$ref":"#/components/schemas/Card"}');
  });

  test('every reference leads somewhere', () => {
    const text = JSON.stringify(openApiDocument('0.1.0'));
    const schemas = openApiDocument('0.1.0').components.schemas;
    const named = [...text.matchAll(/"\$ref":"#\/components\/schemas\/(\w+)"/g)].map(([, name]) => name);
    expect(named.length).toBeGreaterThan(20);
    expect(named.filter((name) => !((name ?? '') in schemas))).toEqual([]);
  });

  test('documents every route that the app answers under /api, /health and /metrics, and no other', () => {
    const { app } = openTestApp();
    const answered = app.routes
      .filter(({ path, method }) => path !== '/*' && method !== 'ALL')
      .map(({ method, path }) => `${method.toLowerCase()} ${path.replaceAll(/:(\w+)/g, '{$1}')}`);
    const { paths } = openApiDocument('0.1.0');
    const documented = Object.entries(paths).flatMap(([path, item]) =>
      Object.keys(item).map((method) => `${method} ${path}`),
    );
    expect(documented.toSorted()).toEqual([...new Set(answered)].toSorted());
  });
});

describe('every documented route answers in its shape', () => {
  test.each(Object.entries(QUESTIONS))('%s', async (name, { path, body, bytes, status = 200 }) => {
    const { get, post } = openTestApp();
    const route = routes[name]!;
    const response = await (route.method === 'get' ? get(path) : post(path, bytes ?? body));
    expect(response.status).toBe(status);
    if (status !== 200) return;
    const type = response.headers.get('content-type') ?? '';
    if (typeof route.answer === 'string') {
      expect(type).toContain(route.answer);
      await response.body?.cancel();
      return;
    }
    expect(type).toContain('application/json');
    const answer: unknown = await response.json();
    // Strict: a field that the shape does not name would be undocumented.
    expect(route.answer.parse(answer)).toEqual(answer);
  });
});

const routes: Record<string, Route> = ROUTES;

/** What must be refused, with the status and a part of the sentence. */
const REFUSED: [why: string, path: string, status: number, says: string][] = [
  ['no such well', '/api/wells/nowhere', 404, 'Unknown well: nowhere'],
  ['no such channel', `/api/wells/orchard/chart?channel=colour&${window}`, 404, 'colour'],
  ['an unknown key', '/api/wells?sort=name', 400, 'sort'],
  ['a window that ends before it begins', '/api/wells/orchard/days?from=2000&to=1000', 400, 'later'],
  ['a window over a year', '/api/wells/orchard/days?from=0&to=40000000000', 400, '370 days'],
  ['a time that is none', '/api/wells/orchard/days?from=soon&to=1000', 400, 'query.from'],
  ['too many points', `/api/wells/orchard/chart?channel=current&points=99999&${window}`, 400, 'query.points'],
  ['a missing part', `/api/wells/orchard/chart?${window}`, 400, 'query.channel'],
  ['a path that is nothing', '/api/pumps', 404, '/api/pumps'],
];

describe('a question that breaks a rule is answered with a problem (RFC 9457)', () => {
  test.each(REFUSED)('%s', async (_why, path, status, says) => {
    const { get } = openTestApp();
    const response = await get(path);
    expect(response.status).toBe(status);
    expect(response.headers.get('content-type')).toBe('application/problem+json');
    const problem = problemShape.strict().parse(await response.json());
    expect(problem.status).toBe(status);
    expect(problem.detail).toContain(says);
  });

  test('a fault of our own is told without its inner parts, and handed on', async () => {
    const { get, farm } = openTestApp();
    farm.deps.store.nodes = () => {
      throw new Error('secret path');
    };
    const response = await get('/api/nodes');
    expect(response.status).toBe(500);
    expect(await response.text()).not.toContain('secret');
    expect(farm.faults).toHaveLength(1);
  });
});
