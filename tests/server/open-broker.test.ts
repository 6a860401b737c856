import { describe, expect, it } from 'vitest';
import { builtInUrl, externalClientSettings } from '../../src/server/open-broker.ts';

const kept = (value: string | undefined) => ({
  getValue: async (key: string) => (key === 'built-in-broker' ? value : undefined),
});

describe('builtInUrl', () => {
  it('is unknown where no server has run', async () =>
    expect(await builtInUrl(kept(undefined))).toBeUndefined());

  it.each([
    { host: '127.0.0.1', url: 'mqtt://127.0.0.1:1883' },
    { host: '0.0.0.0', url: 'mqtt://127.0.0.1:1883' },
    { host: '::', url: 'mqtt://[::1]:1883' },
    // Addresses set aside for examples: RFC 5737 and RFC 3849.
    { host: '192.0.2.7', url: 'mqtt://192.0.2.7:1883' },
    { host: '2001:db8::7', url: 'mqtt://[2001:db8::7]:1883' },
    { host: 'localhost', url: 'mqtt://localhost:1883' },
  ])('$host is reached at $url', async ({ host, url }) => {
    expect(await builtInUrl(kept(JSON.stringify({ host, port: 1883 })))).toBe(url);
  });
});

describe('outsideLine', () => {
  const least = {
    kind: 'external',
    url: 'mqtt://broker.farm.example',
    clientId: 'wells',
    protocolVersion: 5,
  } as const;

  it('names nothing that the settings leave out', () => {
    expect(externalClientSettings(least, { channels: {} })).toEqual({
      url: 'mqtt://broker.farm.example',
      clientId: 'wells',
      version: 5,
    });
  });

  it('takes the user and files from the settings, the password from the secrets alone', () => {
    const settings = {
      ...least,
      protocolVersion: 4,
      username: 'stillwater',
      passwordFile: 'password.txt',
      caFile: 'ca.pem',
      certFile: 'own.pem',
      keyFile: 'own.key',
    } as const;
    expect(
      externalClientSettings(settings, { channels: {}, brokerPassword: () => 'told-to-nobody' }),
    ).toEqual({
      url: 'mqtt://broker.farm.example',
      clientId: 'wells',
      version: 4,
      user: 'stillwater',
      password: 'told-to-nobody',
      caFile: 'ca.pem',
      certFile: 'own.pem',
      keyFile: 'own.key',
    });
  });
});
