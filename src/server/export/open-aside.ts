/**
 * A packet opened beside the thread that watches wells (./open-worker.ts). What comes over is asked
 * for piece by piece, so that the loop goes on in between.
 */
import { Worker } from 'node:worker_threads';
import type { WellRecord } from '../../logbook/export/record.ts';
import type { OpenQuery, OpenOrder, OpenResult, RecordPiece } from './open-worker.ts';
import { texts } from '../texts.ts';

export interface AsidePacket {
  record: WellRecord;
  documents: { hash: string; read: () => Promise<Uint8Array> }[];
  missing: string[];
}

/**
 * Calls `use` with the opened packet, and lets go of it afterwards. `bytes` are handed over: their
 * memory is the other thread's from here on, for a large packet fits into a small computer once.
 */
export async function openAside<T>(
  bytes: Uint8Array,
  use: (opened: AsidePacket | { problem: string }) => T | Promise<T>,
): Promise<T> {
  const worker = start({ bytes });
  try {
    return await use(await read(asker(worker)));
  } finally {
    await worker.terminate();
  }
}

type WorkerResult = OpenResult | { error: Error };
type Ask = (query: OpenQuery) => Promise<OpenResult>;

async function read(ask: Ask): Promise<AsidePacket | { problem: string }> {
  const result = await ask({ ask: 'outline' });
  if ('problem' in result) return result;
  if (!('outline' in result)) throw unexpected('outline');
  const { well, pieces, documents, missing } = result.outline;
  const record = { well, acts: [], entries: [], baselines: [], days: [], cycles: [], alarms: [] };
  for (let at = 0; at < pieces; at++) {
    // One piece after the other: that is the point of them.
    // oxlint-disable-next-line no-await-in-loop
    const next = await ask({ ask: 'piece', at });
    if ('problem' in next) return next;
    if (!('piece' in next)) throw unexpected('piece');
    add(record, next.piece);
  }
  const readDocument = async (hash: string): Promise<Uint8Array> => {
    const next = await ask({ ask: 'document', hash });
    if (!('document' in next)) throw 'problem' in next ? new Error(next.problem) : unexpected('document');
    return next.document;
  };
  return { record, documents: documents.map((hash) => ({ hash, read: () => readDocument(hash) })), missing };
}

function add(record: WellRecord, { list, rows }: RecordPiece): void {
  const all: unknown[] = record[list];
  for (const row of rows) all.push(row);
}

function unexpected(what: string): Error {
  return new Error(`Cannot open an export: its thread gave no ${what}`);
}

/**
 * One question at a time; answers carry no number. Rejects once the thread has ended, but that of
 * too little memory is a problem.
 */
function asker(worker: Worker): Ask {
  let settle: ((result: WorkerResult) => void) | undefined;
  let ended: WorkerResult | undefined;
  // It may end while nobody asks; the next one who does is told.
  const end = (result: WorkerResult): void => {
    ended ??= result;
    settle?.(ended);
  };
  worker.on('message', (result: OpenResult) => settle?.(result));
  worker.on('error', (error: NodeJS.ErrnoException) =>
    end(error.code === 'ERR_WORKER_OUT_OF_MEMORY' ? { problem: texts().thisMachineHasTooLittle } : { error }),
  );
  worker.on('exit', () => end({ error: unexpected('answer') }));
  return async (query) => {
    const result =
      ended ??
      (await new Promise<WorkerResult>((resolve) => {
        settle = resolve;
        worker.postMessage(query);
      }));
    if ('error' in result) throw result.error;
    return result;
  };
}

/**
 * Built, the worker is a file like any other. From sources the thread first learns to read
 * TypeScript: it does not inherit that.
 */
function start(order: OpenOrder): Worker {
  const options = { workerData: order, transferList: ownBuffer(order.bytes) };
  if (!import.meta.url.endsWith('.ts'))
    return new Worker(new URL('open-worker.js', import.meta.url), options);
  const file = new URL('open-worker.ts', import.meta.url).href;
  const loader = import.meta.resolve('tsx/esm/api');
  const script = `import(${JSON.stringify(loader)}).then(({ register }) => (register(), import(${JSON.stringify(file)})))`;
  return new Worker(script, { ...options, eval: true });
}

/**
 * A part of a larger buffer, as Node makes them for small ones, is copied: others live in the rest.
 */
function ownBuffer({ buffer, byteLength }: Uint8Array): ArrayBuffer[] {
  return buffer instanceof ArrayBuffer && buffer.byteLength === byteLength ? [buffer] : [];
}
