/** Starting, asking and ending the bench's child processes. None outlives the bench. */
import { fork, type ChildProcess } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { ChildOrder, ChildWord } from './child.ts';

export interface Child {
  process: ChildProcess;
  say: (word: string) => void;
  /** The next word of this kind. */
  hear: (word: string) => Promise<ChildWord>;
  end: () => Promise<void>;
}

export function startChild(order: ChildOrder): Child {
  const ending = import.meta.url.endsWith('.ts') ? '.ts' : '.js';
  const child = fork(fileURLToPath(new URL(`child${ending}`, import.meta.url)), {
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    // From sources, as the tests run it.
    execArgv: ending === '.ts' ? ['--import', 'tsx'] : [],
  });
  const exited = new Promise<void>((done) => child.once('exit', () => done()));
  const hear = (word: string): Promise<ChildWord> =>
    new Promise((resolve, reject) => {
      const on = (message: unknown): void => {
        const said = message as ChildWord;
        if (said.word !== word) return;
        child.off('message', on);
        resolve(said);
      };
      child.on('message', on);
      child.once('exit', (code) =>
        reject(new Error(`Cannot go on with the bench: its ${order.role} ended with ${code}`)),
      );
    });
  child.send({ word: 'order', order });
  return {
    process: child,
    say: (word) => child.send({ word }),
    hear,
    end: async () => {
      if (child.connected) child.send({ word: 'end' });
      await exited;
    },
  };
}
