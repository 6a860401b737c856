/**
 * What an earlier version saved under other names, read once: the next save has today's. Only what
 * no reading can make again is here (which packs of a node are acknowledged, what a site has
 * reported); a well's saved state is made again from its readings (./rerun.ts).
 */

/** Old name -> today's. */
type Names = Readonly<Record<string, string>>;

const NODE: Names = {
  began: 'forgottenBoots',
  packEveryMs: 'packIntervalMs',
  hole: 'missingPacks',
  hearing: 'liveness',
};
const BOOT: Names = { touchedMs: 'lastActivityMs', up: 'upClock', copy: 'retainedHello', wrong: 'overruled' };
const LIVENESS: Names = {
  heardMs: 'lastHeardMs',
  turnMs: 'burstIntervalMs',
  turns: 'burstCount',
  everyMs: 'reportIntervalMs',
  holdsMs: 'bufferMs',
};
const GAP: Names = { forMs: 'durationMs' };
const MISSING_PACKS: Names = { wholeToMs: 'completeToMs' };
const FULL_SCALE: Names = { most: 'maxByChannel' };
const SILENT_NODE: Names = { told: 'reported' };

/** The state of a node (src/core/readings/node-state.ts), in place. */
export function renameSavedNode(node: unknown): void {
  rename(node, NODE);
  for (const boot of listAt(node, 'boots')) rename(boot, BOOT);
  for (const item of listAt(node, 'news')) renameSavedNews(at(item, 'node'));
  rename(at(node, 'missingPacks'), MISSING_PACKS);
  rename(at(node, 'fullScale'), FULL_SCALE);
  rename(at(node, 'liveness'), LIVENESS);
  for (const gap of listAt(at(node, 'liveness'), 'gaps')) rename(gap, GAP);
}

/** The state of a site (src/core/readings/site-silence.ts), in place. */
export function renameSavedSite(site: unknown): void {
  for (const node of listAt(site, 'silent')) rename(node, SILENT_NODE);
}

/** News of a node (src/core/readings/news.ts), in place. */
export function renameSavedNews(news: unknown): void {
  rename(news, FULL_SCALE);
}

/** A node's row said `letIn` where it says `approved` today. Returns whether it was an old one. */
export function renameSavedRow(row: unknown): boolean {
  return rename(row, { letIn: 'approved' });
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}

function at(value: unknown, key: string): unknown {
  return isObject(value) ? value[key] : undefined;
}

function listAt(value: unknown, key: string): readonly unknown[] {
  const list = at(value, key);
  return Array.isArray(list) ? list : [];
}

/** Returns whether anything had an old name. */
function rename(value: unknown, names: Names): boolean {
  if (!isObject(value)) return false;
  let isOld = false;
  for (const [old, name] of Object.entries(names)) {
    if (!(old in value)) continue;
    isOld = true;
    value[name] ??= value[old];
    delete value[old];
  }
  return isOld;
}
