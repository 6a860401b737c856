import type { NetworkInterfaceInfo } from 'node:os';
import { describe, expect, test } from 'vitest';
import { isOnLocalNetwork, localAddresses } from '../../src/server/local-networks.ts';

function entry(cidr: string, internal = false): NetworkInterfaceInfo {
  const [address = ''] = cidr.split('/');
  const more = { address, cidr, internal, netmask: '', mac: '00:00:00:00:00:00' };
  return address.includes(':') ? { ...more, family: 'IPv6', scopeid: 0 } : { ...more, family: 'IPv4' };
}

/** A farm on addresses that are not private, which few have. */
const FARM = {
  lo: [entry('127.0.0.1/8', true), entry('::1/128', true)],
  eth0: [entry('198.51.100.20/24'), entry('2001:db8:7::20/64'), entry('fe80::20/64')],
  wlan0: [entry('192.168.7.20/24'), entry('169.254.3.4/16')],
};

test('ownAddresses are those at which others reach this computer', () => {
  expect(localAddresses(FARM)).toEqual(['198.51.100.20', '192.168.7.20']);
  expect(localAddresses({ lo: FARM.lo })).toEqual([]);
  expect(localAddresses({ gone: undefined })).toEqual([]);
});

describe('isNear', () => {
  test.each([
    ['192.168.7.31', true],
    ['::ffff:192.168.7.31', true],
    ['10.9.8.7', true],
    ['172.31.255.1', true],
    ['172.32.0.1', false],
    ['100.64.0.1', true],
    ['100.128.0.1', false],
    ['169.254.9.9', true],
    ['127.0.0.1', true],
    ['::1', true],
    ['fe80::1', true],
    ['fe80::1%eth0', true],
    ['fd12:3456::1', true],
    ['198.51.100.7', true],
    ['198.51.101.7', false],
    ['::ffff:198.51.101.7', false],
    ['2001:db8:7::99', true],
    ['2001:db8:8::99', false],
    ['203.0.113.9', false],
    ['', false],
    ['farm', false],
  ])('%s: %s', (address, near) => expect(isOnLocalNetwork(address, FARM)).toBe(near));
});
