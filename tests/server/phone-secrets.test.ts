import { describe, expect, test } from 'vitest';
import { phoneSecrets } from '../../src/server/phone-secrets.ts';
import { openStore } from '../../src/store/open-store.ts';

describe('phoneSecrets', () => {
  test('are 28 letters of 32, all of them used, and never the same', () => {
    const phones = phoneSecrets(openStore(':memory:'), () => 5_000);
    const made = Array.from({ length: 300 }, () => {
      phones.renew(undefined);
      return phones.secret(undefined)!;
    });
    expect(new Set(made.map(({ text }) => text)).size).toBe(300);
    for (const { text, createdMs } of made) {
      expect(text).toMatch(/^[a-z2-7]{28}$/);
      expect(createdMs).toBe(5_000);
    }
    expect(new Set(made.flatMap(({ text }) => text.split(''))).size).toBe(32);
  });

  test('open what they were made for, until they are taken away', () => {
    const store = openStore(':memory:');
    const phones = phoneSecrets(store, () => 0);
    const opens = (text: string): boolean[] =>
      [undefined, 'orchard', 'mill'].map((well) => phones.isValidSecret(text, well));
    expect([opens(''), opens('undefined')]).toEqual([Array(3).fill(false), Array(3).fill(false)]);
    phones.renew(undefined);
    phones.renew('orchard');
    const [all, orchard] = [phones.secret(undefined)!.text, phones.secret('orchard')!.text];
    expect(opens(all)).toEqual([true, false, false]);
    expect(opens(orchard)).toEqual([false, true, false]);
    expect(opens(orchard.slice(0, -1))).toEqual([false, false, false]);
    // Another server on the same store, as after a start.
    expect(phoneSecrets(store, () => 0).isValidSecret(all, undefined)).toBe(true);
    phones.renew('orchard');
    expect(opens(orchard)).toEqual([false, false, false]);
    phones.revoke(undefined);
    expect(opens(all)).toEqual([false, false, false]);
    expect(opens(phones.secret('orchard')!.text)).toEqual([false, true, false]);
  });
});
