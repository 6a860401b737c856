/** What came of taking a packet in, in sentences: what was added, what was here already, what is missing. */
import { sayCount } from '../../../shared/words/format.ts';
import type { PacketAdded } from '../../web/deps.ts';

export interface TakenIn {
  well: string;
  isNew: boolean;
  watched: boolean;
  added: PacketAdded;
  /** Names of papers that did not come. */
  missing: readonly string[];
  /** There is a card to be taken. */
  card?: unknown;
  /** Nodes that the card reads from and another well here too. */
  shared: readonly { node: string; well: string }[];
}

const NAMES: Record<keyof PacketAdded, [one: string, many: string]> = {
  entries: ['entry', 'entries'],
  papers: ['paper', 'papers'],
  acts: ['act', 'acts'],
  alarms: ['alarm', 'alarms'],
  baselines: ['baseline', 'baselines'],
  days: ['day', 'days'],
  cycles: ['cycle', 'cycles'],
};

export function saidOf({ well, isNew, watched, added, missing, card, shared }: TakenIn): string[] {
  const counts = (Object.keys(NAMES) as (keyof PacketAdded)[])
    .filter((kind) => added[kind] > 0)
    .map((kind) => sayCount(added[kind], ...NAMES[kind]));
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
    ...shared.map(
      ({ node, well: other }) =>
        `Its card reads from ${node}, and so does ${other} here. Where that is another box of the same name, change the card; calibrations that came with it stand as past.`,
    ),
    ...(missing.length > 0
      ? [`${sayCount(missing.length, 'paper', 'papers')} did not come with it: ${missing.join(', ')}.`]
      : []),
  ];
}
