import { describe, expect, test } from 'vitest';
import { hashSecret, makeCredential, createVerifier, verifySecret } from '../../src/mqtt/credentials.ts';

describe('makeCredential', () => {
  test('shows six groups of four letters once and keeps only a salted hash', async () => {
    const { password, row } = await makeCredential('barn-north', {
      createdMs: 7,
      speaksFor: ['shed', 'shed'],
    });
    expect(password).toMatch(/^([A-Z2-7]{4}-){5}[A-Z2-7]{4}$/);
    expect(row).toEqual({ node: 'barn-north', secret: row.secret, createdMs: 7, speaksFor: ['shed'] });
    expect(row.secret).toMatch(/^[A-Za-z0-9+/=]{24}:[A-Za-z0-9+/=]{44}$/);
    expect(row.secret).not.toContain(password);
  });

  test('two credentials of one node differ in password and salt', async () => {
    const [a, b] = await Promise.all([
      makeCredential('a', { createdMs: 0 }),
      makeCredential('a', { createdMs: 0 }),
    ]);
    expect(a.password).not.toBe(b.password);
    expect(a.row.secret.split(':')[0]).not.toBe(b.row.secret.split(':')[0]);
  });

  test.each(['', 'Barn', 'barn north', 'barn/north', 'x'.repeat(41), '+', '#'])(
    'refuses the name "%s"',
    async (name) => {
      await expect(makeCredential(name, { createdMs: 0 })).rejects.toThrow(
        'Cannot make credential: a node name is 1 to 40 of a-z, 0-9 and -',
      );
      await expect(makeCredential('gate', { createdMs: 0, speaksFor: [name] })).rejects.toThrow(
        'Cannot make credential',
      );
    },
  );
});

describe('verifySecret', () => {
  test('takes the password as people type it and no other', async () => {
    const { password, row } = await makeCredential('a', { createdMs: 0 });
    expect(await verifySecret(row.secret, password)).toBe(true);
    expect(await verifySecret(row.secret, password.toLowerCase().replaceAll('-', ' '))).toBe(true);
    expect(await verifySecret(row.secret, `${password}A`)).toBe(false);
    expect(await verifySecret(row.secret, '')).toBe(false);
  });

  // A secret made once by node:crypto's scrypt with N=4096, r=8, p=1 must stay valid.
  test('a hash kept earlier stays valid', async () => {
    const { scryptSync } = await import('node:crypto');
    const salt = Buffer.from('0123456789abcdef');
    const hash = scryptSync('ABCDEFGH', salt, 32, { N: 4096, r: 8, p: 1 });
    expect(await verifySecret(`${salt.toString('base64')}:${hash.toString('base64')}`, 'abcd-efgh')).toBe(
      true,
    );
  });

  test.each(['', 'nothing', ':', 'c2FsdA==:', 'c2FsdA==:c2hvcnQ='])(
    'a secret "%s" is never right',
    async (secret) => {
      expect(await verifySecret(secret, '')).toBe(false);
    },
  );
});

describe('openVerifier', () => {
  test('remembers what was right, and forgets it when the secret changes', async () => {
    const verify = createVerifier();
    const [old, fresh] = [await hashSecret('OLD'), await hashSecret('NEW')];
    expect(await verify('a', old, 'OLD')).toBe(true);
    expect(await verify('a', old, 'OLD')).toBe(true);
    expect(await verify('a', old, 'NEW')).toBe(false);
    expect(await verify('a', fresh, 'OLD')).toBe(false);
    expect(await verify('a', fresh, 'NEW')).toBe(true);
  });
});
