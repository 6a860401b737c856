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
import { collect, dataOption, jsonOption, settingsOption } from './options.ts';
import { locate } from './place.ts';
import { texts } from './texts.ts';

export const nodeCommand: CommandBuilder = (command, context) => {
  command.description(texts().manageTheNodesTheBoxes);
  defineAdd(command, context);
  command
    .command('list')
    .description(texts().listTheNodesThatHave)
    .addOption(jsonOption())
    .addOption(settingsOption())
    .addOption(dataOption())
    .action(
      context.action((flags) =>
        withStore(locate(context.io, flags).dataDir, (store) => list(context.io, store, flags)),
      ),
    );
  command
    .command('remove')
    .description(texts().removeThePassword)
    .argument('<name>', texts().nameOfTheNode)
    .addOption(settingsOption())
    .addOption(dataOption())
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
    .description(texts().makeAUserName)
    .argument('<name>', texts().nameOfTheNode)
    .option('--speaks-for <name>', texts().anotherNodeWhoseReadingsThis, collect)
    .addOption(jsonOption())
    .addOption(settingsOption())
    .addOption(dataOption())
    .addHelpText('after', texts().examplesOfNodeAdd)
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
    .description(texts().forgetNodesThatAreGone)
    .argument('<name...>', texts().nameOfTheNode)
    .option('--server <address>', texts().addressOfTheRunningServer)
    .addOption(settingsOption())
    .addOption(dataOption())
    .addHelpText('after', texts().examplesOfNodeForget)
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
  if (rows.length === 0) io.out(texts().noNodeHasAPassword);
  for (const { node, createdMs, speaksFor } of rows) {
    const since = new Date(createdMs).toISOString().slice(0, 10);
    io.out(
      `${node}  ${speaksFor.length > 0 ? texts().sinceSpeaksFor({ since, names: speaksFor.join(', ') }) : texts().since(since)}`,
    );
  }
  return EXIT.ok;
}

async function remove(io: Io, store: Store, name: string): Promise<number> {
  if (!(await store.credentials()).some((row) => row.node === name))
    throw new UsageError(texts().itHasNoPasswordTry(name));
  await store.commit([{ change: 'credential-removed', node: name }]);
  io.out(texts().cannotConnectAgainAConnection(name));
  return EXIT.ok;
}

interface AddParams {
  name: string;
  speaksFor: readonly string[];
  json: boolean;
}

async function add(io: Io, store: Store, { name, speaksFor, json }: AddParams): Promise<number> {
  const wrong = [name, ...speaksFor].find((one) => !isNodeName(one));
  if (wrong !== undefined) throw new UsageError(texts().nodeName(wrong));
  const { password, row } = await makeCredential(name, { createdMs: Date.now(), speaksFor });
  await store.commit([{ change: 'credential', row }]);
  if (json) io.out(JSON.stringify({ node: name, password, speaksFor }));
  else {
    io.out(texts().userName(name));
    io.out(texts().password(password));
    io.out(texts().putThePasswordInto);
  }
  return EXIT.ok;
}
