/**
 * Opens one packet on a thread of its own, since unpacking and checking the largest takes minutes
 * in which the server must go on watching. It answers one question after the other: the record in
 * pieces, then documents, so that neither side ever copies much at once.
 */
import { parentPort, workerData } from 'node:worker_threads';
import { openExport } from '../../logbook/export/export.ts';
import type { WellRecord } from '../../logbook/export/record.ts';
import { sha256 } from './sha256.ts';

export interface OpenOrder {
  bytes: Uint8Array;
}

type RowsOf = Omit<WellRecord, 'well'>;
/** Some rows of one list of the record. */
export type RecordPiece = { [K in keyof RowsOf]: { list: K; rows: RowsOf[K] } }[keyof RowsOf];

export type OpenQuery = { ask: 'outline' } | { ask: 'piece'; at: number } | { ask: 'document'; hash: string };

export type OpenResult =
  | { problem: string }
  | { outline: { well: string; pieces: number; documents: string[]; missing: string[] } }
  | { piece: RecordPiece }
  | { document: Uint8Array };

/**
 * A row is 80 KiB at most and some 300 B as a rule: a piece is some 150 KiB, and 40 MB at the very
 * most.
 */
const ROWS_A_PIECE = 500;

function* piecesOf(record: WellRecord): Generator<RecordPiece> {
  for (const [list, rows] of Object.entries(record)) {
    if (!Array.isArray(rows)) continue;
    for (let at = 0; at < rows.length; at += ROWS_A_PIECE)
      // Rows of a list stay with its name; the compiler loses that in the pairs.
      // oxlint-disable-next-line typescript/no-unsafe-type-assertion
      yield { list, rows: rows.slice(at, at + ROWS_A_PIECE) } as RecordPiece;
  }
}

const { bytes } = workerData as OpenOrder;
const opened = openExport(bytes, sha256);
const pieces = 'problem' in opened ? [] : [...piecesOf(opened.record)];

function answer(query: OpenQuery): OpenResult {
  if ('problem' in opened) return opened;
  switch (query.ask) {
    case 'outline': {
      const { record, documents, missing } = opened;
      const hashes = documents.map(({ hash }) => hash);
      return { outline: { well: record.well, pieces: pieces.length, documents: hashes, missing } };
    }
    case 'piece':
      return { piece: pieces[query.at]! };
    case 'document':
      return { document: opened.documents.find(({ hash }) => hash === query.hash)!.read() };
    default:
      return query satisfies never;
  }
}

parentPort?.on('message', (query: OpenQuery) => parentPort?.postMessage(answer(query)));
