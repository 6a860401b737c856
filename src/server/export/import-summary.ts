/**
 * What came of taking a packet in, in sentences: what was added, what was here already, what is
 * missing.
 */
import { formatCount } from '../../../shared/text/en/format.ts';
import type { ImportCounts } from '../../http/deps.ts';

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
    isNew
      ? `${well} was not known here and is now.`
      : `${well} was known here; nothing that was here was changed.`,
    counts.length === 0 ? 'Nothing in the packet was new.' : `Added: ${counts.join(', ')}.`,
    ...(watched && added.acts > 0
      ? [
          card === undefined
            ? 'It is watched here: the card here stays, and acts from elsewhere are kept as its past.'
            : 'It is watched here without a card: the packet’s card was taken. Acts from elsewhere are kept as its past.',
        ]
      : []),
    ...sharedNodes.map(
      ({ node, well: other }) =>
        `Its card reads from ${node}, and so does ${other} here. Where that is another box of the same name, change the card; calibrations that came with it stand as past.`,
    ),
    ...(missing.length > 0
      ? [`${formatCount(missing.length, 'paper', 'papers')} did not come with it: ${missing.join(', ')}.`]
      : []),
  ];
}
