/**
 * A case of the fixed set as it was played once: what its watches saw, and what the verdict needs
 * of the truth. Kept in a file, so that a second start plays nothing twice.
 */
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import { deflateSync, inflateSync } from 'node:zlib';
import type { CorpusCase } from '../score/case.ts';
import type { PlayResult } from '../score/play.ts';
import { sceneCopier, type Observed } from './observed.ts';
import type { Engine } from './scaled-engine.ts';

export interface SavedCase {
  observed: Observed[];
  played: PlayResult;
}

/** Plays it, unless it is kept in the folder. */
export function playOrLoad(engine: Engine, corpusCase: CorpusCase, folder: string): SavedCase {
  const file = join(folder, `${corpusCase.name}-${corpusCase.days}.seen`);
  if (existsSync(file)) return deserialize(inflateSync(readFileSync(file))) as SavedCase;
  const saved = playObserved(engine, corpusCase);
  mkdirSync(folder, { recursive: true });
  // Whole or not at all: a run that is ended here leaves no half of it.
  writeFileSync(`${file}.new`, deflateSync(serialize(saved), { level: 1 }));
  renameSync(`${file}.new`, file);
  return saved;
}

function playObserved(engine: Engine, corpusCase: CorpusCase): SavedCase {
  const observed: Observed[] = [];
  const copy = sceneCopier();
  engine.observer.seen = (one) => observed.push(copy(one));
  try {
    return { observed, played: engine.playCase(corpusCase) };
  } finally {
    engine.observer.seen = undefined;
  }
}
