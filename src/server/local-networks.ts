/**
 * The networks that this computer belongs to, as the system knows them at this moment: its own
 * addresses there, and whether another computer is near. Near is what has an address of one of
 * these networks, or a private one (RFC 1918, 3927, 4193, 6598): a farm may have several behind one
 * router. What comes from the internet is not near, even where a router lets it in.
 */
import { BlockList, isIP } from 'node:net';
import type { networkInterfaces } from 'node:os';

type Interfaces = ReturnType<typeof networkInterfaces>;

const PRIVATE_NETWORKS = [
  '10.0.0.0/8',
  '172.16.0.0/12',
  '192.168.0.0/16',
  '169.254.0.0/16',
  '100.64.0.0/10',
  '127.0.0.0/8',
  'fc00::/7',
  'fe80::/10',
  '::1/128',
];

/** Addresses (IPv4) at which others can reach this computer; none where it is on no network. */
export function localAddresses(interfaces: Interfaces): string[] {
  return entriesOf(interfaces)
    .filter(
      ({ family, internal, address }) => family === 'IPv4' && !internal && !address.startsWith('169.254.'),
    )
    .map(({ address }) => address);
}

/** Whether a peer's address, as a socket gives it, is of one of our networks or a private one. */
export function isOnLocalNetwork(address: string, interfaces: Interfaces): boolean {
  // An IPv4 peer on a socket that is open for both (RFC 4291, 2.5.5.2).
  const plain = address.replace(/^::ffff:(?=\d+\.)/i, '');
  if (isIP(plain) === 0) return false;
  const localNetworks = new BlockList();
  const own = entriesOf(interfaces).flatMap(({ cidr }) => cidr ?? []);
  for (const cidr of [...PRIVATE_NETWORKS, ...own]) {
    const [net = '', bits] = cidr.split('/');
    localNetworks.addSubnet(net, Number(bits), familyOf(net));
  }
  return localNetworks.check(plain, familyOf(plain));
}

function familyOf(address: string): 'ipv4' | 'ipv6' {
  return isIP(address) === 6 ? 'ipv6' : 'ipv4';
}

function entriesOf(interfaces: Interfaces) {
  return Object.values(interfaces).flatMap((entries) => entries ?? []);
}
