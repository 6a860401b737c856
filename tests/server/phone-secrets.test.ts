import { describe, expect, test } from 'vitest';
import { phoneSecrets } from '../../src/server/phone-secrets.ts';
import { openStore } from '../../src/store/open-store.ts';

describe('phoneSecrets', () => {
  test('are 28 letters of 32, all of them used, and never the same', async () => {
    const phones = phoneSecrets(openStore(':memory:'), () => 5_000);
    const made: { text: string; createdMs: number }[] = [];
    for (let i = 0; i < 300; i++) {
      await phones.renew(undefined);
      made.push((await phones.secret(undefined))!);
    }
    expect(new Set(made.map(({ text }) => text)).size).toBe(300);
    for (const { text, createdMs } of made) {
      expect(text).toMatch(/^[a-z2-7]{28}$/);
      expect(createdMs).toBe(5_000);
    }
    expect(new Set(made.flatMap(({ text }) => text.split(''))).size).toBe(32);
  });

  test('open what they were made for, until they are taken away', async () => {
    const store = openStore(':memory:');
    const phones = phoneSecrets(store, () => 0);
    const opens = (text: string): Promise<boolean[]> =>
      Promise.all([undefined, 'orchard', 'mill'].map((well) => phones.isValidSecret(text, well)));
    expect([await opens(''), await opens('undefined')]).toEqual([Array(3).fill(false), Array(3).fill(false)]);
    await phones.renew(undefined);
    await phones.renew('orchard');
    const [all, orchard] = [(await phones.secret(undefined))!.text, (await phones.secret('orchard'))!.text];
    expect(await opens(all)).toEqual([true, false, false]);
    expect(await opens(orchard)).toEqual([false, true, false]);
    expect(await opens(orchard.slice(0, -1))).toEqual([false, false, false]);
    // Another server on the same store, as after a start.
    expect(await phoneSecrets(store, () => 0).isValidSecret(all, undefined)).toBe(true);
    await phones.ensure('orchard');
    expect(await opens(orchard)).toEqual([false, true, false]);
    await phones.renew('orchard');
    expect(await opens(orchard)).toEqual([false, false, false]);
    await phones.revoke(undefined);
    expect(await opens(all)).toEqual([false, false, false]);
    expect(await opens((await phones.secret('orchard'))!.text)).toEqual([false, true, false]);
    await phones.ensure(undefined);
    expect(await opens((await phones.secret(undefined))!.text)).toEqual([true, false, false]);
  });
});
