/** Starting, asking and ending the bench's child processes. None outlives the bench. */
import { fork, type ChildProcess } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { ChildTask, ChildMessage } from './child.ts';

export interface Child {
  process: ChildProcess;
  send: (type: string) => void;
  /** The next message of this type. */
  waitFor: (type: string) => Promise<ChildMessage>;
  end: () => Promise<void>;
}

export function startChild(order: ChildTask): Child {
  const ending = import.meta.url.endsWith('.ts') ? '.ts' : '.js';
  const child = fork(fileURLToPath(new URL(`child${ending}`, import.meta.url)), {
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    // From sources, as the tests run it.
    execArgv: ending === '.ts' ? ['--import', 'tsx'] : [],
  });
  const exited = new Promise<void>((done) => child.once('exit', () => done()));
  const waitFor = (type: string): Promise<ChildMessage> =>
    new Promise((resolve, reject) => {
      const on = (message: unknown): void => {
        const reply = message as ChildMessage;
        if (reply.type !== type) return;
        child.off('message', on);
        resolve(reply);
      };
      child.on('message', on);
      child.once('exit', (code) =>
        reject(new Error(`Cannot go on with the bench: its ${order.role} ended with ${code}`)),
      );
    });
  child.send({ type: 'order', order });
  return {
    process: child,
    send: (type) => child.send({ type }),
    waitFor,
    end: async () => {
      if (child.connected) child.send({ type: 'end' });
      await exited;
    },
  };
}
