/**
 * Which watches a file decides for: those that import it, directly or by others. What every watch
 * shares reaches them all; what only weighs causes or groups alarms reaches none.
 */
import { readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { CATALOGUE, type WatchedKind } from '../../../shared/alarms/catalogue.ts';

/** By file, as thresholds name it: the kinds of alarm whose watch it reaches. */
export function reachOf(top: string): Map<string, WatchedKind[]> {
  const reach = new Map<string, WatchedKind[]>();
  for (const [kind, row] of Object.entries(CATALOGUE)) {
    if (!('delays' in row)) continue;
    const seen = new Set<string>();
    visit(top, `src/core/alarms/${row.group}/${kind}.ts`, seen);
    for (const file of seen) reach.set(file, [...(reach.get(file) ?? []), kind as WatchedKind]);
  }
  return reach;
}

function visit(top: string, file: string, seen: Set<string>): void {
  if (seen.has(file) || !file.startsWith('src/core/')) return;
  seen.add(file);
  const text = readFileSync(join(top, file), 'utf8');
  for (const [, path] of text.matchAll(/^import (?!type\b)[^'"]*?from '(\.[^']+)';/gm))
    visit(top, relative(top, resolve(top, dirname(file), path!)), seen);
}
