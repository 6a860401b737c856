/** An act as it is kept, shown and handed over. */

export interface ActRow {
  id: string;
  atMs: number;
  by?: string;
  /** Absent for acts of the whole server. */
  well?: string;
  node?: string;
  kind: string;
  /** The act as it came, as JSON (the card as written). */
  body: unknown;
}
