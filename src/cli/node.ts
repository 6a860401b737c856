/** `stillwell node`: credentials of nodes. A password is shown once; the store keeps only its hash. */
import { join } from 'node:path';
import { makeCredential } from '../mqtt/credentials.ts';
import { openStore } from '../store/open-store.ts';
import { makePrivateFolder } from '../store/private-files.ts';
import type { Store } from '../store/store.ts';
import { STORE_FILE } from '../server/server.ts';
import { EXIT, UsageError, type Command, type Io } from './command.ts';
import { forgetNodes } from './node-forget.ts';
import { readOptions } from './options.ts';
import { readSettingsOrUsageError } from './serve.ts';

export const nodeCommand: Command = {
  name: 'node',
  usage: 'node add NAME [--speaks-for NAME …] | node remove NAME | node forget NAME … | node list',
  about:
    'Give a node (the box with the sensors) its user name and password for the built-in broker; take it away; list them; forget a node.',
  more: `The user name is the node's own name: 1 to 40 small letters, digits and dashes. The password is shown once. With them the node
may send its own readings and hear what is meant for it, nothing else. Adding a node again gives it a new password. The server may
be running meanwhile; it knows of a change within two seconds.

forget removes a node that is no more, and the well that was made for it: from the running server, or from the data folder where none
runs. A node that has sent readings stays, and so does one that a card reads from. A node that connects again is known again: take its
password away first (node remove).

  --speaks-for NAME  a further node whose readings this one, a gateway, hands on; once for each
  --server URL       forget: ask a server, instead of looking into the data folder
  --settings FILE    the settings file (.stillwell/settings.json unless given)
  --data DIR         the folder where everything is kept`,
  async run(args, io) {
    const { flags, names } = readOptions(args, {
      settings: { type: 'string' },
      data: { type: 'string' },
      server: { type: 'string' },
      'speaks-for': { type: 'string', multiple: true },
    });
    const [verb, name, ...rest] = names;
    if (verb === 'forget') {
      const { settings } = readSettingsOrUsageError(io.env, flags.settings);
      return await forgetNodes(names.slice(1), io, {
        dataDir: flags.data ?? settings.dataDir,
        ...(flags.server !== undefined && { server: flags.server }),
        usual: `http://${settings.web.host}:${settings.web.port}`,
      });
    }
    if (flags.server !== undefined)
      throw new UsageError('Cannot use --server: only node forget asks a server');
    if (rest.length > 0) throw new UsageError(`Cannot read "${rest[0]}": one name is expected`);
    const { settings } = readSettingsOrUsageError(io.env, flags.settings);
    const dataDir = flags.data ?? settings.dataDir;
    makePrivateFolder(dataDir);
    const store = openStore(join(dataDir, STORE_FILE), { role: 'secondary' });
    try {
      return await runVerb({ verb, name, speaksFor: flags['speaks-for'] ?? [] }, store, io);
    } finally {
      store.close();
    }
  },
};

interface NodeParams {
  verb: string | undefined;
  name: string | undefined;
  speaksFor: string[];
}

async function runVerb({ verb, name, speaksFor }: NodeParams, store: Store, io: Io): Promise<number> {
  if (verb === 'list') {
    const rows = store.credentials();
    if (rows.length === 0) io.out('No node has a credential yet. Give it one: stillwell node add NAME');
    for (const row of rows) {
      io.out(
        `${row.node}  since ${new Date(row.createdMs).toISOString().slice(0, 10)}${row.speaksFor.length > 0 ? `  speaks for ${row.speaksFor.join(', ')}` : ''}`,
      );
    }
    return EXIT.ok;
  }
  if (name === undefined) throw new UsageError('A name is expected: stillwell node add NAME');
  if (verb === 'remove') {
    if (!store.credentials().some((row) => row.node === name))
      throw new UsageError(`Cannot remove ${name}: it has no credential`);
    store.commit([{ change: 'credential-removed', node: name }]);
    io.out(
      `${name} cannot connect any more. A connection that is open lasts until it ends. What it sent is kept.`,
    );
    return EXIT.ok;
  }
  if (verb !== 'add')
    throw new UsageError(`Cannot do "${verb ?? ''}": add, remove, forget or list is expected`);
  const { password, row } = await makeCredential(name, { createdMs: Date.now(), speaksFor });
  store.commit([{ change: 'credential', row }]);
  io.out(`User name  ${name}`);
  io.out(`Password   ${password}`);
  io.out('Write it down or put it into the node now: it is not shown again.');
  return EXIT.ok;
}
