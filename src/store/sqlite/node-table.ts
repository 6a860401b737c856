/**
 * Nodes and their credentials. A node's row is changed by several hands (its state by the run loop,
 * `approved` by a person), so fields that a change leaves out stay as they were.
 */
import { eq, sql } from 'drizzle-orm';
import type { BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import { credential, node } from './schema.ts';
import type { CredentialRow, NodeRow } from '../store.ts';

/**
 * Where in the journal a node's saved state stands: it holds all rows before `row`, and the first
 * `packs` packs of that row.
 */
export interface SavedPosition {
  row: number;
  packs: number;
}

export interface NodeTable {
  /** `place` is taken over where the change brings a newer state; returns whether it did. */
  put(row: NodeRow, place: SavedPosition): boolean;
  remove(name: string): void;
  list(): NodeRow[];
  savedPositions(): Map<string, SavedPosition>;
  putCredential(row: CredentialRow): void;
  removeCredential(name: string): void;
  credentials(): CredentialRow[];
}

export function nodeTable(orm: BetterSQLite3Database): NodeTable {
  const find = orm
    .select()
    .from(node)
    .where(eq(node.node, sql.placeholder('node')))
    .prepare();
  const write = orm
    .insert(node)
    .values({
      node: sql.placeholder('node'),
      savedRow: sql.placeholder('savedRow'),
      savedPacks: sql.placeholder('savedPacks'),
      row: sql.placeholder('row'),
    })
    .onConflictDoUpdate({
      target: node.node,
      set: {
        savedRow: sql`excluded.saved_row`,
        savedPacks: sql`excluded.saved_packs`,
        row: sql`excluded.row`,
      },
    })
    .prepare();
  const writeCredential = orm
    .insert(credential)
    .values({ node: sql.placeholder('node'), row: sql.placeholder('row') })
    .onConflictDoUpdate({ target: credential.node, set: { row: sql`excluded.row` } })
    .prepare();

  return {
    put(row, place) {
      const old = find.get({ node: row.node });
      // The same `savedMs` is the same state written once more beside another field, perhaps after
      // further packs.
      const newer = row.state !== undefined && (!old || row.savedMs !== old.row.savedMs);
      write.run({
        node: row.node,
        savedRow: newer ? place.row : (old?.savedRow ?? 0),
        savedPacks: newer ? place.packs : (old?.savedPacks ?? 0),
        row: { ...old?.row, ...row },
      });
      return newer;
    },
    remove: (name) => void orm.delete(node).where(eq(node.node, name)).run(),
    list: () =>
      orm
        .select()
        .from(node)
        .orderBy(node.node)
        .all()
        .map(({ row }) => row),
    savedPositions: () =>
      new Map(
        orm
          .select()
          .from(node)
          .all()
          .map((found) => [found.node, { row: found.savedRow, packs: found.savedPacks }]),
      ),
    putCredential: (row) => void writeCredential.run({ node: row.node, row }),
    removeCredential: (name) => void orm.delete(credential).where(eq(credential.node, name)).run(),
    credentials: () =>
      orm
        .select()
        .from(credential)
        .orderBy(credential.node)
        .all()
        .map(({ row }) => row),
  };
}
