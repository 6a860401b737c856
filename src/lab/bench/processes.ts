/** Starting, asking and ending the bench's child processes. None outlives the bench. */
import { fork, type ChildProcess } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { ChildTask, ChildMessage } from './child.ts';

export interface Child {
  process: ChildProcess;
  send: (word: string) => void;
  /** The next word of this kind. */
  waitFor: (word: string) => Promise<ChildMessage>;
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
  const waitFor = (word: string): Promise<ChildMessage> =>
    new Promise((resolve, reject) => {
      const on = (message: unknown): void => {
        const reply = message as ChildMessage;
        if (reply.type !== word) return;
        child.off('message', on);
        resolve(reply);
      };
      child.on('message', on);
      child.once('exit', (code) =>
        reject(new Error(`Cannot go on with the bench: its ${order.role} ended with ${code}`)),
      );
    });
  child.send({ word: 'order', order });
  return {
    process: child,
    send: (word) => child.send({ word }),
    waitFor,
    end: async () => {
      if (child.connected) child.send({ word: 'end' });
      await exited;
    },
  };
}
