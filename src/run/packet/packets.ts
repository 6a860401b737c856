/** Packets of this store's wells go out, and those of other Stillwells come in. */
import { makePage, makeZip, type PacketSource } from '../../book/packet/packet.ts';
import type { UnitSystem } from '../../../shared/quantity/print-quantity.ts';
import type { Entry } from '../../book/entry.ts';
import type { PaperFiles } from '../../store/paper-files.ts';
import type { Change, Store } from '../../store/store.ts';
import type { PacketResult, Packets } from '../../web/deps.ts';
import { gatherRecord } from './gather.ts';
import { openAside, type AsidePacket } from './open-aside.ts';
import { saidOf } from './said.ts';
import { sha256 } from './sha256.ts';
import { planTakeIn } from './take-in.ts';

export interface PacketParts {
  store: Store;
  papers: PaperFiles;
  now: () => number;
  /** Commits what came, and makes it known to whatever runs. Returns what went wrong, in a sentence; throws where nothing runs. */
  commit: (changes: readonly Change[]) => string | undefined | void;
  /** Writes a card as somebody's act of now. */
  writeCard: (card: Record<string, unknown>, by: string | undefined) => void;
}

export function openPackets(parts: PacketParts): Packets {
  const { store, papers } = parts;
  /** One at a time: each holds up to the largest packet, and what it unpacks to. */
  let taking = false;
  const sourceOf = (well: string, units: UnitSystem | undefined): PacketSource => {
    // A paper that went bad does not keep the well from being handed over: the page says that it was not at hand.
    const sound = new Map<string, boolean>();
    return {
      record: gatherRecord(store, well),
      sha256,
      hasPaper(hash) {
        const is = sound.get(hash) ?? papers.isSound(hash);
        sound.set(hash, is);
        return is;
      },
      readPaper: (hash) => papers.read(hash) ?? new Uint8Array(),
      ...(units !== undefined && { units }),
    };
  };
  return {
    zip: (well, units) => makeZip(sourceOf(well, units)),
    page: (well, units) => makePage(sourceOf(well, units)),
    async take(bytes, how) {
      if (taking)
        return { no: 'Cannot take packet: another one is being taken in; try again when it is done' };
      taking = true;
      try {
        return await openAside(bytes, (opened) =>
          'problem' in opened ? { no: opened.problem } : takeOpened(parts, opened, how),
        );
      } finally {
        taking = false;
      }
    },
  };
}

async function takeOpened(
  parts: PacketParts,
  opened: AsidePacket,
  { same, by }: { same: boolean; by?: string },
): Promise<PacketResult> {
  const { store, papers, now } = parts;
  const { record } = opened;
  const planned = (): ReturnType<typeof planTakeIn> => planTakeIn(store, record, { nowMs: now(), same });
  const first = planned();
  if ('no' in first) return first;
  const fresh = opened.papers.filter(({ hash }) => !papers.isSound(hash));
  // One paper after the other, so that one lies in memory.
  // oxlint-disable-next-line no-await-in-loop
  for (const paper of fresh) papers.put(await paper.read());
  // While papers came the server went on: what is committed is planned from the store as it is now.
  const plan = fresh.length === 0 ? first : planned();
  if ('no' in plan) return plan;
  // Where nothing is new nothing is made again.
  const wrong = plan.changes.length === 0 ? undefined : parts.commit(plan.changes);
  if (wrong !== undefined) return { no: wrong };
  if (plan.card) parts.writeCard(plan.card, by);
  const missing = opened.missing
    .filter((hash) => !papers.has(hash))
    .map((hash) => nameOf(hash, record.entries));
  const added = { ...plan.added, papers: fresh.length };
  return {
    well: record.well,
    isNew: plan.isNew,
    added,
    missing,
    said: saidOf({ ...plan, added, missing, well: record.well }),
  };
}

/** As somebody called it, or the start of its hash. */
function nameOf(hash: string, entries: readonly Entry[]): string {
  const name = entries.find(({ kind, body }) => kind === 'paper' && body['hash'] === hash)?.body['name'];
  return typeof name === 'string' ? name : hash.slice(0, 12);
}
