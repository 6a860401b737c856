import { describe, expect, test } from 'vitest';
import { openTestApp } from './support.ts';

describe('the card of a well over the API', () => {
  test('a change upon the card that was opened is taken, and one upon an older card is told who changed it', async () => {
    const { get, post } = openTestApp();
    const path = '/api/wells/orchard/card';
    const first = await post(path, { card: { well: 'orchard' }, by: 'Ines' });
    expect(first.status).toBe(200);
    const { act } = (await (await get(path)).json()) as { act: string };
    const next = { well: 'orchard', pump: { motor: '1 hp' } };
    expect((await post(path, { card: next, basedOn: act, by: 'Tom' })).status).toBe(200);
    const late = await post(path, { card: { well: 'orchard' }, basedOn: act, by: 'Ines' });
    expect(late.status).toBe(409);
    expect(await late.text()).toContain('Tom changed this card after you opened it');
    expect(await (await get(path)).json()).toMatchObject({ card: next, by: 'Tom' });
  });

  test('a card that cannot be is refused with its rule', async () => {
    const { post } = openTestApp();
    const bad = await post('/api/wells/orchard/card', {
      card: { well: 'orchard', pump: { motor: '1 psi' } },
    });
    expect(bad.status).toBe(400);
    expect(await bad.text()).toContain('pump.motor must be a power');
  });

  test('all that is wrong is told, each at its field', async () => {
    const bad = await openTestApp().post('/api/wells/orchard/card', {
      card: { well: 'orchard', pump: { motor: '1 psi' }, hole: { depth: '320' } },
    });
    const { fields } = (await bad.json()) as { fields: { at: string; rule: string }[] };
    expect(fields.map(({ at }) => at)).toEqual(['pump.motor', 'hole.depth']);
    expect(fields[1]!.rule).toBe('must be a length in m, ft, in or mm: "320"');
  });

  test('photos must be documents that are kept here', async () => {
    const { app, post } = openTestApp();
    const kept = await app.request('/api/wells/orchard/documents?name=box.txt', {
      method: 'POST',
      body: 'a photo',
    });
    const { entry } = (await kept.json()) as { entry: { body: { hash: string } } };
    const cardWith = (hash: string) => ({ card: { well: 'orchard', electrical: { photos: [hash] } } });
    const lost = await post('/api/wells/orchard/card', cardWith('0'.repeat(64)));
    expect(lost.status).toBe(400);
    expect(await lost.text()).toContain('electrical.photos must be documents that are kept here');
    expect((await post('/api/wells/orchard/card', cardWith(entry.body.hash))).status).toBe(200);
  });

  test('what was measured stands beside it, and the cards of all wells come together', async () => {
    const { get, post } = openTestApp();
    await post('/api/wells/orchard/card', { card: { well: 'orchard', owner: 'R. Alder' }, by: 'Ines' });
    const { measured } = (await (await get('/api/wells/orchard/card')).json()) as {
      measured: { key: string }[];
    };
    expect(measured.map(({ key }) => key)).toContain('pump.maxAmps');
    const { cards } = (await (await get('/api/cards')).json()) as { cards: { well: string }[] };
    expect(cards).toContainEqual(
      expect.objectContaining({ card: { well: 'orchard', owner: 'R. Alder' }, by: 'Ines' }),
    );
    expect(cards.length).toBeGreaterThan(1);
  });
});

describe('papers over the API', () => {
  test('come back as the bytes that they were, with the type that they are', async () => {
    const { app, get } = openTestApp();
    const kept = await app.request('/api/wells/orchard/documents?name=log.txt&about=hole', {
      method: 'POST',
      body: 'Static level 41 ft',
    });
    const { entry } = (await kept.json()) as { entry: { body: { hash: string } } };
    const paper = await get(`/api/documents/${entry.body.hash}`);
    expect(paper.headers.get('content-type')).toBe('text/plain; charset=utf-8');
    expect(paper.headers.get('x-content-type-options')).toBe('nosniff');
    expect(await paper.text()).toBe('Static level 41 ft');
  });

  test.each(['..%2F..%2Fetc%2Fpasswd', 'abc', '0'.repeat(64)])('there is none called %s', async (hash) => {
    expect((await openTestApp().get(`/api/documents/${hash}`)).status).toBe(404);
  });

  test('one that is too large is refused before it is read whole', async () => {
    const { app } = openTestApp();
    const big = new Uint8Array(26 * 2 ** 20).fill(0x20);
    const answer = await app.request('/api/wells/orchard/documents?name=big.txt', {
      method: 'POST',
      body: big,
    });
    expect(answer.status).toBe(413);
    expect(((await answer.json()) as { detail: string }).detail).toBe('The body may have 25 MiB at most.');
  });
});
