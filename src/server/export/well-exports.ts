/** Packets of this store's wells go out, and those of other Stillwells come in. */
import { buildExportPage, buildExportZip, type ExportSource } from '../../logbook/export/export.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { entriesOf, type Entry } from '../../../shared/entries/entry.ts';
import type { DocumentFiles } from '../../store/document-files.ts';
import type { Change, Store } from '../../store/store.ts';
import type { ImportResult, WellExports } from '../../http/deps.ts';
import { gatherRecord } from './gather.ts';
import { openAside, type AsidePacket } from './open-aside.ts';
import { importSentences } from './import-summary.ts';
import { readPageStyle } from './page-style.ts';
import { sha256 } from './sha256.ts';
import { planImport, type ImportPlanResult } from './plan-import.ts';
import { texts } from '../texts.ts';

export interface WellExportParts {
  store: Store;
  documents: DocumentFiles;
  now: () => number;
  /**
   * Commits what is planned, and makes it known to whatever runs. Returns what went wrong, in a
   * sentence; rejects where nothing runs.
   */
  commit: (plan: () => Promise<readonly Change[]>) => Promise<string | undefined>;
  /** Writes a card as somebody's act of now. */
  writeCard: (card: Record<string, unknown>, by: string | undefined) => Promise<unknown>;
}

export function openWellExports(parts: WellExportParts): WellExports {
  const { store, documents } = parts;
  /** One at a time: each holds up to the largest packet, and what it unpacks to. */
  let taking = false;
  const sourceOf = async (well: string, units: UnitSystem | undefined): Promise<ExportSource> => {
    // A document that went bad does not keep the well from being handed over: the page says that it
    // was not at hand.
    const sound = new Map<string, boolean>();
    return {
      record: gatherRecord(well, await store.past(well)),
      style: readPageStyle(),
      sha256,
      hasDocument(hash) {
        const is = sound.get(hash) ?? documents.isIntact(hash);
        sound.set(hash, is);
        return is;
      },
      readDocument: (hash) => documents.read(hash) ?? new Uint8Array(),
      ...(units !== undefined && { units }),
    };
  };
  return {
    zip: async (well, units) => buildExportZip(await sourceOf(well, units)),
    page: async (well, units) => buildExportPage(await sourceOf(well, units)),
    async importFile(bytes, how) {
      if (taking) return { problem: texts().anotherOneIsBeingTaken };
      taking = true;
      try {
        return await openAside(bytes, (opened) =>
          'problem' in opened ? { problem: opened.problem } : takeOpened(parts, opened, how),
        );
      } finally {
        taking = false;
      }
    },
  };
}

async function takeOpened(
  parts: WellExportParts,
  opened: AsidePacket,
  { sameWell, by }: { sameWell: boolean; by?: string },
): Promise<ImportResult> {
  const { store, documents, now } = parts;
  const { record } = opened;
  const planned = (): Promise<ImportPlanResult> => planImport(store, record, { nowMs: now(), sameWell });
  const first = await planned();
  if ('problem' in first) return first;
  const fresh = opened.documents.filter(({ hash }) => !documents.isIntact(hash));
  // One document after the other, so that one lies in memory.
  // oxlint-disable-next-line no-await-in-loop
  for (const document of fresh) documents.put(await document.read());
  // Meanwhile the server went on: what is committed is planned from the store as it is then.
  const last: { plan: ImportPlanResult } = { plan: first };
  const wrong = await parts.commit(async () => {
    last.plan = await planned();
    return 'problem' in last.plan ? [] : last.plan.changes;
  });
  if (wrong !== undefined) return { problem: wrong };
  const { plan } = last;
  if ('problem' in plan) return plan;
  if (plan.card) await parts.writeCard(plan.card, by);
  const missing = opened.missing
    .filter((hash) => !documents.has(hash))
    .map((hash) => nameOf(hash, record.entries));
  const added = { ...plan.added, documents: fresh.length };
  return {
    well: record.well,
    isNew: plan.isNew,
    added,
    missing,
    summary: importSentences({ ...plan, added, missing, well: record.well }),
  };
}

/** As somebody called it, or the start of its hash. */
function nameOf(hash: string, entries: readonly Entry[]): string {
  return entriesOf(entries, 'paper').find(({ body }) => body.hash === hash)?.body.name ?? hash.slice(0, 12);
}
