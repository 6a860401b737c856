/**
 * What came of taking a packet in, in sentences: what was added, what was here already, what is
 * missing.
 */
import { formatCount } from '../../../shared/text/en/format.ts';
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

const COUNT_NAMES: Record<keyof ImportCounts, [one: string, many: string]> = {
  entries: ['entry', 'entries'],
  documents: ['paper', 'papers'],
  acts: ['act', 'acts'],
  alarms: ['alarm', 'alarms'],
  baselines: ['baseline', 'baselines'],
  days: ['day', 'days'],
  cycles: ['cycle', 'cycles'],
};

export function importSentences({
  well,
  isNew,
  watched,
  added,
  missing,
  card,
  sharedNodes,
}: ImportSummary): string[] {
  const counts = (Object.keys(COUNT_NAMES) as (keyof ImportCounts)[])
    .filter((kind) => added[kind] > 0)
    .map((kind) => formatCount(added[kind], ...COUNT_NAMES[kind]));
  return [
    isNew ? texts().wasNotKnownHere(well) : texts().wasKnownHereNothing(well),
    counts.length === 0 ? texts().nothingInTheExport : `Added: ${counts.join(', ')}.`,
    ...(watched && added.acts > 0
      ? [card === undefined ? texts().itIsWatchedHere : texts().itIsWatchedHereWithout]
      : []),
    ...sharedNodes.map(({ node, well: other }) => texts().itsCardReads({ node, other })),
    ...(missing.length > 0
      ? [
          texts().didNotCome({
            papers: formatCount(missing.length, 'paper', 'papers'),
            missing: missing.join(', '),
          }),
        ]
      : []),
  ];
}
