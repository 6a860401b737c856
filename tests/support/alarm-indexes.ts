/**
 * The two lists of what each kind of alarm has in a file of its own: its watch and its text. They
 * follow from the catalogue, so they are made from it: `npx vitest run … -u` writes them anew.
 */
import { CATALOGUE, type AlarmKind } from '../../shared/alarms/catalogue.ts';

const KINDS = Object.keys(CATALOGUE) as AlarmKind[];
const WATCHED = KINDS.filter((kind) => 'delays' in CATALOGUE[kind]);

/** `dry-run` is exported as `dryRun`. */
function nameOf(kind: AlarmKind): string {
  return kind.replaceAll(/-(\w)/g, (_, letter: string) => letter.toUpperCase());
}

function importOf(kind: AlarmKind, name: string): string {
  return `import { ${name} } from './${CATALOGUE[kind].group}/${kind}.ts';`;
}

/** src/core/alarms/watch-index.ts */
export function watchIndex(): string {
  return `/**
 * The watch of each kind, in the order of the catalogue. Made from shared/alarms/catalogue.ts by
 * tests/core/alarms/indexes.test.ts.
 */
import type { WatchedKind } from '../../../shared/alarms/catalogue.ts';
import type { Watch } from './scene.ts';
${WATCHED.map((kind) => importOf(kind, nameOf(kind))).join('\n')}

export const WATCH_OF: Record<WatchedKind, Watch> = {
${WATCHED.map((kind) => `  '${kind}': ${nameOf(kind)},`).join('\n')}
};
`;
}

/** shared/text/en/alarms/text-index.ts */
export function textIndex(): string {
  return `/**
 * The text of each kind: an alarm without words does not compile. Made from
 * shared/alarms/catalogue.ts by tests/core/alarms/indexes.test.ts.
 */
import type { AlarmKind } from './kinds.ts';
import type { AlarmText } from './text-shapes.ts';
${KINDS.map((kind) => importOf(kind, `${nameOf(kind)}Text`)).join('\n')}

export const TEXT_OF = {
${KINDS.map((kind) => `  '${kind}': ${nameOf(kind)}Text,`).join('\n')}
} satisfies Record<AlarmKind, AlarmText>;
`;
}
