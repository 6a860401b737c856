/**
 * `stillwell node`: credentials of nodes. A password is shown once; the store keeps only its hash.
 */
import { join } from 'node:path';
import { makeCredential } from '../mqtt/credentials.ts';
import { openStore } from '../store/open-store.ts';
import { makePrivateFolder } from '../store/private-files.ts';
import type { Store } from '../store/store.ts';
import { isNodeName } from '../core/decode/topics.ts';
import { STORE_FILE } from '../server/server.ts';
import { EXIT, UsageError, type CommandBuilder, type CommandContext, type Io } from './command.ts';
import { forgetNodes } from './node-forget.ts';
import { collect, DATA_OPTION, JSON_OPTION, SETTINGS_OPTION } from './options.ts';
import { locate } from './place.ts';

const NODE = 'Name of the node: 1 to 40 of a-z, 0-9 and -.';

export const nodeCommand: CommandBuilder = (command, context) => {
  command.description(
    'Manage the nodes (the boxes with sensors) of the built-in broker. ' +
      'A node may publish its own readings and receive its own acknowledgements, nothing else. ' +
      'The server may be running; it sees a change within two seconds.',
  );
  defineAdd(command, context);
  command
    .command('list')
    .description('List the nodes that have a password.')
    .addOption(JSON_OPTION)
    .addOption(SETTINGS_OPTION)
    .addOption(DATA_OPTION)
    .action(
      context.action((flags) =>
        withStore(locate(context.io, flags).dataDir, (store) => list(context.io, store, flags)),
      ),
    );
  command
    .command('remove')
    .description('Remove the password of a node, so that it cannot connect again. Its readings are kept.')
    .argument('<name>', NODE)
    .addOption(SETTINGS_OPTION)
    .addOption(DATA_OPTION)
    .action(
      context.action((name, flags) =>
        withStore(locate(context.io, flags).dataDir, (store) => remove(context.io, store, name)),
      ),
    );
  defineForget(command, context);
};

function defineAdd(command: Parameters<CommandBuilder>[0], { io, action }: CommandContext): void {
  command
    .command('add')
    .description(
      'Make a user name and a password for a node. The password is printed once. ' +
        'Adding a node again gives it a new password.',
    )
    .argument('<name>', NODE)
    .option(
      '--speaks-for <name>',
      'Another node whose readings this gateway publishes. Repeat the option for each.',
      collect,
    )
    .addOption(JSON_OPTION)
    .addOption(SETTINGS_OPTION)
    .addOption(DATA_OPTION)
    .addHelpText(
      'after',
      '\nExamples:\n  stillwell node add barn-north\n  stillwell node add gateway --speaks-for barn-north --speaks-for mill',
    )
    .action(
      action((name, flags) =>
        withStore(locate(io, flags).dataDir, (store) =>
          add(io, store, { name, speaksFor: flags.speaksFor ?? [], json: flags.json === true }),
        ),
      ),
    );
}

function defineForget(command: Parameters<CommandBuilder>[0], { io, action }: CommandContext): void {
  command
    .command('forget')
    .description(
      'Forget nodes that are gone, and the wells that were made for them. ' +
        'A node that has sent readings stays, and so does one that a card names. ' +
        'Remove its password first, or it comes back when it connects.',
    )
    .argument('<name...>', NODE)
    .option('--server <address>', 'Address of the running server. Default: the one in the settings.')
    .addOption(SETTINGS_OPTION)
    .addOption(DATA_OPTION)
    .addHelpText('after', '\nExample:\n  stillwell node forget barn-nroth')
    .action(
      action((names, { server, ...flags }) => {
        const { dataDir, defaultServer } = locate(io, flags);
        return forgetNodes(names, io, {
          dataDir,
          defaultServer,
          ...(server !== undefined && { server }),
        });
      }),
    );
}

async function withStore<T>(dataDir: string, work: (store: Store) => T | Promise<T>): Promise<T> {
  makePrivateFolder(dataDir);
  const store = openStore(join(dataDir, STORE_FILE), { role: 'secondary' });
  try {
    return await work(store);
  } finally {
    await store.close();
  }
}

async function list(io: Io, store: Store, { json }: { json?: true }): Promise<number> {
  const rows = await store.credentials();
  if (json) {
    for (const { node, createdMs, speaksFor } of rows) io.out(JSON.stringify({ node, createdMs, speaksFor }));
    return EXIT.ok;
  }
  if (rows.length === 0) io.out('No node has a password yet. To make one: stillwell node add NAME');
  for (const { node, createdMs, speaksFor } of rows) {
    const since = new Date(createdMs).toISOString().slice(0, 10);
    io.out(`${node}  since ${since}${speaksFor.length > 0 ? `  speaks for ${speaksFor.join(', ')}` : ''}`);
  }
  return EXIT.ok;
}

async function remove(io: Io, store: Store, name: string): Promise<number> {
  if (!(await store.credentials()).some((row) => row.node === name))
    throw new UsageError(`Cannot remove ${name}: it has no password. Try: stillwell node list`);
  await store.commit([{ change: 'credential-removed', node: name }]);
  io.out(`${name} cannot connect again. A connection that is open stays open until it ends.`);
  return EXIT.ok;
}

interface AddParams {
  name: string;
  speaksFor: readonly string[];
  json: boolean;
}

async function add(io: Io, store: Store, { name, speaksFor, json }: AddParams): Promise<number> {
  const wrong = [name, ...speaksFor].find((one) => !isNodeName(one));
  if (wrong !== undefined)
    throw new UsageError(`Cannot add ${wrong}: a node name must be 1 to 40 of a-z, 0-9 and -`);
  const { password, row } = await makeCredential(name, { createdMs: Date.now(), speaksFor });
  await store.commit([{ change: 'credential', row }]);
  if (json) io.out(JSON.stringify({ node: name, password, speaksFor }));
  else {
    io.out(`User name  ${name}`);
    io.out(`Password   ${password}`);
    io.out('Put the password into the node now, or write it down. It is not shown again.');
  }
  return EXIT.ok;
}
