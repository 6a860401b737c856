/**
 * Names in the code are the trade's words, the standards' or plain technical English. This list
 * holds figures of speech that an earlier version used for mechanisms, each with the word that took
 * its place. Strings and comments are not looked at; nor are the words that the contract fixes on
 * the wire (kept, ask, hello, presence, pack).
 */
import { readFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const top = fileURLToPath(new URL('..', import.meta.url));

/** They read what an earlier version stored, under the names of that time. */
const OLD_NAMES = ['src/server/live/old-names.ts', 'tests/server/live/old-names.test.ts'];

/** A key in saved state: another name would forget what saved wells remember. */
const SAVED_KEYS = ['toldMs'];

/**
 * Words that no identifier may contain, word by word as camelCase and underscores part it. A phrase
 * is its words in order.
 */
const REPLACED: Record<string, string> = {
  'let in': 'approve, approved, pendingApproval',
  'turn away': 'reject',
  'hand on': 'dispatch',
  'hand in': 'import',
  handed: 'imported',
  'take in': 'import',
  ailment: 'healthProblem',
  ailments: 'healthProblems',
  bite: 'step or chunk',
  bites: 'steps or chunks',
  packets: 'exports',
  told: 'known, notified or published',
  'tell again': 'reconcile',
  'tell event': 'publishEvent',
  teller: 'notifier',
  desk: 'logbook service',
  door: 'authenticator or server',
  shelf: 'retainedMessages or store',
  voice: 'nodeProgress',
  voices: 'nodeProgress',
  stretch: 'segment',
  hearing: 'liveness',
  'fresh from': 'resetAt',
  opinion: 'evaluation',
  crowd: 'cluster',
  doubt: 'quality or uncertainty',
  surprise: 'residual',
  mould: 'template',
  beat: 'tick',
  tidy: 'round, prune or maintain',
  'long way': 'generic',
  unwritten: 'notRecorded',
  'goes on': 'persists',
  'goes away': 'clears',
  reckon: 'calculate or estimate',
  learnt: 'learned',
  misuse: 'usageError',
};

function files(folder: string): string[] {
  return readdirSync(join(top, folder)).flatMap((name) => {
    const path = join(folder, name);
    if (name === 'node_modules') return [];
    if (statSync(join(top, path)).isDirectory()) return files(path);
    return /\.tsx?$/.test(name) ? [path] : [];
  });
}

/** The code of a file without its comments, strings and patterns: good enough for names. */
function code(path: string): string {
  return readFileSync(join(top, path), 'utf8')
    .replace(/\/\*[\s\S]*?\*\/|(?<![:'"`])\/\/.*$/gm, '')
    .replace(/'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"/g, "''")
    .replace(/`(?:[^`\\]|\\.)*`/g, (text) =>
      [...text.matchAll(/\$\{([^}]*)\}/g)].map(([, inner]) => inner).join(' '),
    )
    .replace(/(?<=[(,=:]\s*)\/(?:[^/\\\n]|\\.)+\/[a-z]*/g, '');
}

const wordsOf = (name: string): string =>
  ` ${name
    .replace(/([a-z0-9])([A-Z])/g, '$1 $2')
    .replaceAll('_', ' ')
    .toLowerCase()} `;

/**
 * Names in a file; on pages, whose text looks like names here, only those of several words and
 * those that are declared.
 */
function namesOf(path: string): Set<string> {
  const text = code(path);
  const single = path.endsWith('.tsx')
    ? /(?<=\b(?:const|let|function|type|interface)\s+)[A-Za-z_$][\w$]*|[A-Za-z_$][\w$]*(?=\??:)/g
    : /[A-Za-z_$][\w$]*/g;
  return new Set([...(text.match(single) ?? []), ...(text.match(/[A-Za-z]+(?:[A-Z]|_)\w*/g) ?? [])]);
}

it('names hold no word that was replaced', () => {
  const found: string[] = [];
  for (const path of ['src', 'shared', 'dashboards', 'tests'].flatMap(files)) {
    if (path === 'tests/words.test.ts' || OLD_NAMES.includes(path)) continue;
    for (const name of namesOf(path)) {
      if (SAVED_KEYS.includes(name)) continue;
      const words = wordsOf(name);
      const old = Object.keys(REPLACED).find((word) => words.includes(` ${word} `));
      if (old !== undefined) found.push(`${path}: ${name} (say ${REPLACED[old]})`);
    }
  }
  expect(found).toEqual([]);
});
