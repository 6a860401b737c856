/**
 * The code base looks at itself: who may import whom, a test for each file, no leftovers, wording
 * for every alarm.
 */
import { existsSync, readFileSync, readdirSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../shared/alarms/catalogue.ts';
import { CYCLE_FLAGS } from '../shared/api/events.ts';
import { CHANNEL_NAMES } from '../src/channels/channels.ts';
import { ALARM_WORDS } from '../shared/text/en/alarms/alarm-words.ts';
import { ALARM_KINDS, CAUSES, type AlarmKind } from '../shared/text/en/alarms/kinds.ts';

const top = fileURLToPath(new URL('..', import.meta.url));
/**
 * The stations of the core and the logbook, in the order of the data: each may import from those
 * before it.
 */
const PURE = [
  'core/domain',
  'core/decode',
  'core/readings',
  'core/cycles',
  'core/hydraulics',
  'core/baseline',
  'core/alarms',
  'core/alarms/lifecycle',
  'core/notify',
  'core/well',
  'core/fleet',
  'logbook',
];
/** These never import each other. */
const APART = ['store', 'mqtt', 'channels', 'http'];

interface Import {
  from: string;
  to: string;
  typeOnly: boolean;
}

function files(folder: string, endings = /\.tsx?$/): string[] {
  const whole = join(top, folder);
  if (!existsSync(whole)) return [];
  return readdirSync(whole).flatMap((name) => {
    const path = join(folder, name);
    if (statSync(join(top, path)).isDirectory()) return files(path, endings);
    return endings.test(name) ? [path] : [];
  });
}

function importsOf(path: string): Import[] {
  const text = readFileSync(join(top, path), 'utf8');
  const found = [...text.matchAll(/^\s*(?:import|export)\s+(type\s)?[^'"]*?from\s+['"]([^'"]+)['"]/gm)];
  const dynamic = [...text.matchAll(/import\(\s*['"]([^'"]+)['"]\s*\)/g)].map((m) => ({
    from: path,
    to: m[1]!,
    typeOnly: false,
  }));
  return [...found.map((m) => ({ from: path, to: m[2]!, typeOnly: m[1] !== undefined })), ...dynamic];
}

/** The project path an import points to, or the package name as it is. */
function target(i: Import): string {
  return i.to.startsWith('.') ? relative(top, resolve(top, dirname(i.from), i.to)) : i.to;
}

/** The folder that decides what a file may import: `core/cycles`, `store` … */
const station = (path: string): string | undefined =>
  /^src\/(core\/alarms\/lifecycle|core\/[a-z]+|[a-z]+)\//.exec(path)?.[1];
const sources = [...files('src'), ...files('shared'), ...files('dashboards')].filter(
  (f) => !f.includes('node_modules'),
);
const all = sources.flatMap(importsOf);

describe('imports', () => {
  it('point inward', () => {
    const wrong = all.filter((i) => {
      const here = station(i.from);
      const there = station(target(i));
      if (here === undefined || there === undefined || here === there) return false;
      if (PURE.includes(here)) return !PURE.includes(there) || PURE.indexOf(there) > PURE.indexOf(here);
      return APART.includes(here) && APART.includes(there);
    });
    expect(wrong.map((i) => `${i.from} imports ${target(i)}`)).toEqual([]);
  });

  it('of shared/ stay within shared/, of dashboards/ within dashboards/ and shared/', () => {
    const wrong = all.filter((i) => {
      const to = target(i);
      if (!i.to.startsWith('.'))
        return (
          i.from.startsWith('shared/') &&
          !(i.to === 'zod' && /^shared\/(api|schema|card|entries)\//.test(i.from)) &&
          !(i.to === 'preact' && i.from.startsWith('shared/view/'))
        );
      if (i.from.startsWith('shared/')) return !to.startsWith('shared/');
      return i.from.startsWith('dashboards/') && !to.startsWith('dashboards/') && !to.startsWith('shared/');
    });
    expect(wrong.map((i) => `${i.from} imports ${target(i)}`)).toEqual([]);
  });

  it('of the core reach no file, network or clock', () => {
    const wrong = all.filter(
      (i) =>
        PURE.includes(station(i.from) ?? '') &&
        /^node:|^(mqtt|aedes|hono|better-sqlite3|pino|nodemailer)/.test(i.to),
    );
    expect(wrong.map((i) => `${i.from} imports ${i.to}`)).toEqual([]);
    const clocks = sources
      .filter((f) => PURE.includes(station(f) ?? ''))
      .filter((f) =>
        /\bDate\.now\(|new Date\(\)|Math\.random\(|setTimeout\(|setInterval\(|performance\.now\(|console\./.test(
          code(f),
        ),
      );
    expect(clocks).toEqual([]);
  });

  it('make no circle within a folder', () => {
    const graph = new Map<string, string[]>();
    for (const i of all)
      if (i.to.startsWith('.') && !i.typeOnly) graph.set(i.from, [...(graph.get(i.from) ?? []), target(i)]);
    const done = new Set<string>();
    const circles: string[] = [];
    const visit = (file: string, path: string[]): void => {
      if (path.includes(file)) circles.push([...path.slice(path.indexOf(file)), file].join(' -> '));
      if (done.has(file) || path.includes(file)) return;
      for (const next of graph.get(file) ?? []) visit(next, [...path, file]);
      done.add(file);
    };
    for (const file of graph.keys()) visit(file, []);
    expect(circles).toEqual([]);
  });

  it('only main.ts reads the environment', () => {
    const readers = files('src').filter((f) => /\bprocess\.env\b/.test(code(f)) && f !== 'src/main.ts');
    expect(readers).toEqual([]);
  });
});

/** A file's text without comments and strings' worth of trouble: enough to look for calls. */
function code(path: string): string {
  return readFileSync(join(top, path), 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');
}

describe('files', () => {
  it('lie at most 25 side by side', () => {
    const counts = new Map<string, number>();
    for (const f of [...sources, ...files('tests')])
      counts.set(dirname(f), (counts.get(dirname(f)) ?? 0) + 1);
    expect([...counts].filter(([, n]) => n > 25)).toEqual([]);
  });

  it('each open with the idea they hold', () => {
    const silent = files('src').filter(
      (f) => !/^(#!.*\n)?\s*(\/\*\*|\/\/)/.test(readFileSync(join(top, f), 'utf8')),
    );
    expect(silent).toEqual([]);
  });

  it('with logic each have a test that imports them', () => {
    const tested = new Set(files('tests').flatMap(importsOf).map(target));
    // What a tested file of the same station imports is tested through it.
    const byFolder = new Map<string, string[]>();
    for (const i of all)
      if (i.to.startsWith('.')) byFolder.set(i.from, [...(byFolder.get(i.from) ?? []), target(i)]);
    const queue = [...tested];
    while (queue.length > 0) {
      const file = queue.pop()!;
      for (const next of byFolder.get(file) ?? []) {
        if (station(next) !== station(file) || tested.has(next)) continue;
        tested.add(next);
        queue.push(next);
      }
    }
    const hasLogic = (f: string): boolean => /\bfunction\b|=>/.test(code(f));
    const without = files('src').filter((f) => !(f in STARTED) && hasLogic(f) && !tested.has(f));
    expect(without).toEqual([]);
  });

  it('that are started and not imported are named by the test that starts them', () => {
    const unnamed = Object.entries(STARTED).filter(
      ([file, test]) =>
        !readFileSync(join(top, test), 'utf8').includes(file.split('/').at(-1)!.replace('.ts', '')),
    );
    expect(unnamed).toEqual([]);
  });

  it('keep comments within 100 columns', () => {
    const long = ['src', 'shared', 'dashboards', 'tests', '.ci']
      .flatMap((folder) => files(folder, /\.(tsx?|mjs)$/))
      .flatMap((file) =>
        readFileSync(join(top, file), 'utf8')
          .split('\n')
          .flatMap((line, index) =>
            line.length > 100 && /^\s*(\/\/|\*|\/\*)/.test(line) ? [`${file}:${index + 1}`] : [],
          ),
      );
    expect(long).toEqual([]);
  });

  it('hold no leftovers and no switched-off tests', () => {
    // Written in halves, so that this file is not found itself.
    const marks = new RegExp(
      [
        ['FIX', 'ME'],
        ['X', 'XX'],
        ['HA', 'CK'],
        ['TO', 'DO'],
      ]
        .map((w) => `\\b${w.join('')}\\b`)
        .join('|'),
    );
    const offs = new RegExp(`\\b(it|test|describe)\\.(${['on', 'ly'].join('')}|${['sk', 'ip'].join('')})\\(`);
    const left = [...sources, ...files('tests')].filter((f) => {
      const text = readFileSync(join(top, f), 'utf8');
      return marks.test(text) || offs.test(text);
    });
    expect(left).toEqual([]);
  });
});

/** Scripts with a process or a thread of their own, and the test that runs them. */
const STARTED: Record<string, string> = {
  'src/main.ts': 'tests/cli/program.ts',
  'src/lab/bench/main.ts': 'tests/lab/bench-command.test.ts',
  'src/lab/bench/child.ts': 'tests/lab/bench.test.ts',
  'src/lab/demo/worker.ts': 'tests/lab/demo.test.ts',
  'src/server/export/open-worker.ts': 'tests/server/export/open-aside.test.ts',
  'src/lab/score/main.ts': 'tests/lab/score/command.test.ts',
  'src/lab/score/worker.ts': 'tests/lab/score/command.test.ts',
  'src/lab/score/workers.ts': 'tests/lab/score/command.test.ts',
};

/**
 * What is named outside its three files: a file or folder that does something of its own about one
 * kind, with why. A new kind needs none of them.
 */
const MENTIONS: Record<string, string> = {
  'src/core/fleet/': 'raises and ends site-silent and not-watched, which no well can find',
  'src/core/alarms/lifecycle/alarms.ts': 'raises not-watched where a watch cannot',
  'src/core/alarms/lifecycle/symptoms.ts': 'a sensor-fault explains what is read from that sensor',
  'src/core/alarms/first-hour/check-pressure.ts': 'asks the controls of switch-shift',
  'src/core/alarms/electric/amps-shift.ts': 'one chart for amps-high and amps-low',
  'src/core/well/handle-pump-step.ts': 'asks the controls of cut-out-not-reached',
  'src/core/notify/test-notice.ts': 'a test notice names an alarm that no reader can mistake',
  'src/logbook/due/due-by-alarm.ts': 'a check that an alarm makes due',
  'src/logbook/readings/guided-run.ts': 'an end of a guided run that is called the same',
  'shared/api/readings.ts': 'the same end',
  'shared/text/en/checks/guided-run.ts': 'the same end, in words',
  'shared/text/en/causes/clues.ts': 'a clue tells nothing of an alarm that is made of its figure',
  'shared/text/en/well-words.ts': 'a well whose node is silent is shown apart',
};

describe('alarms', () => {
  /** The kind by itself, not as the end of another word: `leak` is not `pitless-leak`. */
  const named = (kind: string): RegExp => new RegExp(`(?<![a-z-])${kind}(?![a-z-])`);

  /** The second and third of its files; the first is the catalogue. */
  const watchOf = (kind: AlarmKind): string => `src/core/alarms/${CATALOGUE[kind].group}/${kind}.ts`;
  const textOf = (kind: AlarmKind): string => `shared/text/en/alarms/${CATALOGUE[kind].group}/${kind}.ts`;

  it('each have a watch and a text in files of their own, and a test', () => {
    const tests = files('tests/core/alarms')
      .map((f) => readFileSync(join(top, f), 'utf8'))
      .join('\n');
    const lacking = ALARM_KINDS.filter(
      (kind) =>
        ![watchOf(kind), textOf(kind)].every((f) => existsSync(join(top, f))) || !named(kind).test(tests),
    );
    expect(ALARM_KINDS).not.toEqual([]);
    expect(lacking).toEqual([]);
  });

  it('are named by their row, watch and text alone (and the corpora), or by one that says why', () => {
    /** Names that stand for something else too: those tell nothing. */
    const ambiguous: readonly string[] = [...CAUSES, ...CYCLE_FLAGS];
    const home = (kind: AlarmKind): string[] => [
      'shared/alarms/catalogue.ts',
      watchOf(kind),
      textOf(kind),
      'src/core/alarms/watch-index.ts',
      'shared/text/en/alarms/text-index.ts',
    ];
    const known = Object.keys(MENTIONS);
    const strangers = ALARM_KINDS.filter((kind) => !ambiguous.includes(kind)).flatMap((kind) =>
      sources
        .filter((f) => !f.startsWith('src/lab/') && !home(kind).includes(f))
        .filter((f) => new RegExp(`['"\`]${kind}['"\`]`).test(code(f))),
    );
    expect(strangers.filter((f) => !known.some((part) => f.startsWith(part)))).toEqual([]);
    expect(known.filter((part) => !strangers.some((f) => f.startsWith(part)))).toEqual([]);
  });

  it('each say what they need and when they can be wrong, and stand on the page of all alarms', () => {
    const page = readFileSync(join(top, 'shared/text/en/ALARMS.md'), 'utf8');
    const lacking = ALARM_KINDS.filter((kind) => {
      const { canBeWrong, needs } = ALARM_WORDS[kind];
      return canBeWrong.length < 40 || needs === '' || !page.includes(`\`${kind}\`, `);
    });
    expect(lacking).toEqual([]);
  });

  it('each have a case of the proving ground, but for those of no well', () => {
    const cases = files('src/lab/score/corpus')
      .map((f) => code(f))
      .join('\n');
    const without = ALARM_KINDS.filter((kind) => !named(kind).test(cases));
    // Said by the server of itself, and of a whole site: tests/server/live/ proves them.
    expect(without).toEqual(['site-silent', 'not-watched']);
  });

  it('each have causes that are weighed, but for a fault of our own, which is its own explanation', () => {
    /** A watch and what it imports from beside it: some keep their words apart. */
    const whole = (file: string): string =>
      [file, ...importsOf(file).map(target)]
        .filter((f) => f.startsWith('src/core/alarms/') && f !== 'src/core/alarms/weigh-causes.ts')
        .map(code)
        .join('\n');
    const causeless = ALARM_KINDS.filter((kind) => !/\bweighCauses\(/.test(whole(watchOf(kind))));
    expect(causeless).toEqual(['not-watched']);
  });
});

it('a channel code is made and taken apart by src/core/domain/channels.ts alone', () => {
  const others = files('src').filter((f) =>
    /\b(code|own|at|pump)\b\)? *(& 15|>> 4|<< 4|\* 16)\b/.test(code(f)),
  );
  expect(others).toEqual([]);
});

it('a wire format is a folder that the table of formats alone imports', () => {
  const isFormat = (f: string): boolean => /^src\/core\/decode\/[a-z-]+\/format\.ts$/.test(f);
  const importers = all.filter((i) => i.from.startsWith('src/') && isFormat(target(i))).map((i) => i.from);
  expect(new Set(importers)).toEqual(new Set(['src/core/decode/formats.ts']));
  expect(importers.length).toBe(files('src/core/decode').filter(isFormat).length);
});

describe('notice channels', () => {
  /** Which channel's folder a file is in, if in any. */
  const folderOf = (f: string): string | undefined => /^src\/channels\/([a-z]+)\//.exec(f)?.[1];
  const folders = [...new Set(files('src/channels').flatMap((f) => folderOf(f) ?? []))];

  it('are each at home in a folder and a row', () => {
    expect(folders.toSorted()).toEqual(CHANNEL_NAMES.toSorted());
    const importers = all.filter((i) => {
      const there = folderOf(target(i));
      return i.from.startsWith('src/') && there !== undefined && there !== folderOf(i.from);
    });
    expect([...new Set(importers.map((i) => i.from))]).toEqual(['src/channels/channels.ts']);
  });

  it('are named nowhere else: settings, help, secrets and notices ask the table', () => {
    // A broker and a command are other things too.
    const ownNames = CHANNEL_NAMES.filter((name) => name !== 'mqtt' && name !== 'command');
    const named = ['src/config', 'src/core/notify', 'src/server', 'src/store', 'src/http']
      .flatMap((folder) => files(folder))
      .filter((f) => new RegExp(`\\b(${[...ownNames, 'smtp'].join('|')})\\b`, 'i').test(code(f)));
    expect(named).toEqual([]);
  });

  it('know nothing of the settings file', () => {
    const wrong = all.filter(
      (i) => i.from.startsWith('src/channels/') && target(i).startsWith('src/config/'),
    );
    expect(wrong.map((i) => i.from)).toEqual([]);
  });
});

describe('DEVELOPERS.md', () => {
  it('names no path that is not there', () => {
    const text = readFileSync(join(top, 'DEVELOPERS.md'), 'utf8');
    const paths = [...text.matchAll(/`((?:src|shared|tests|dashboards|firmware-contract|\.ci)\/[^`\s]*)`/g)]
      .flatMap((found) => expandBraces(found[1]!))
      .map((path) => path.replace(/\/$/, ''));
    const there = ['src', 'shared', 'tests', 'dashboards', 'firmware-contract', '.ci']
      .flatMap((folder) => files(folder, /./))
      .flatMap((file) => file.split('/').map((_, depth, parts) => parts.slice(0, depth + 1).join('/')));
    const known = new Set(there);
    // NAME, KIND and GROUP stand for any.
    const missing = paths.filter((path) => {
      const pattern = path.replaceAll('.', '\\.').replaceAll(/[A-Z]{3,}(?!\w)/g, '[^/]+');
      return !known.has(path) && ![...known].some((file) => new RegExp(`^${pattern}$`).test(file));
    });
    expect(paths.length).toBeGreaterThan(40);
    expect(missing).toEqual([]);
  });
});

/** `a/{b,c}.ts` as `a/b.ts` and `a/c.ts`. */
function expandBraces(path: string): string[] {
  const found = /^(.*)\{([^}]*)\}(.*)$/.exec(path);
  return found ? found[2]!.split(',').flatMap((part) => expandBraces(found[1]! + part + found[3]!)) : [path];
}

describe('top level', () => {
  it('is as designed', () => {
    const designed = [
      'README.md',
      'DEVELOPERS.md',
      'package.json',
      'package-lock.json',
      'tsconfig.json',
      'src',
      'firmware-contract',
      'tests',
      'dashboards',
      'shared',
    ];
    const more = readdirSync(top).filter(
      (n) =>
        !n.startsWith('.') &&
        !designed.includes(n) &&
        !['node_modules', 'dist', 'data', 'LICENSE'].includes(n),
    );
    expect(more).toEqual([]);
  });
});
