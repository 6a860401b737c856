/**
 * What came of taking a packet in, in sentences: what was added, what was here already, what is
 * missing.
 */
import type { ImportCounts } from '../../http/deps.ts';
import { texts } from '../texts.ts';

export interface ImportSummary {
  well: string;
  isNew: boolean;
  watched: boolean;
  added: ImportCounts;
  /** Names of documents that did not come. */
  missing: readonly string[];
  /** There is a card to be taken. */
  card?: unknown;
  /** Nodes that the card reads from and another well here too. */
  sharedNodes: readonly { node: string; well: string }[];
}

export function importSentences({
  well,
  isNew,
  watched,
  added,
  missing,
  card,
  sharedNodes,
}: ImportSummary): string[] {
  const words: Record<keyof ImportCounts, (n: number) => string> = texts().importCounts;
  const counts = (Object.keys(words) as (keyof ImportCounts)[])
    .filter((kind) => added[kind] > 0)
    .map((kind) => words[kind](added[kind]));
  return [
    isNew ? texts().wasNotKnownHere(well) : texts().wasKnownHereNothing(well),
    counts.length === 0 ? texts().nothingInTheExport : texts().added(counts.join(', ')),
    ...(watched && added.acts > 0
      ? [card === undefined ? texts().itIsWatchedHere : texts().itIsWatchedHereWithout]
      : []),
    ...sharedNodes.map(({ node, well: other }) => texts().itsCardReads({ node, other })),
    ...(missing.length > 0
      ? [
          texts().didNotCome({
            documents: texts().importCounts.documents(missing.length),
            missing: missing.join(', '),
          }),
        ]
      : []),
  ];
}
