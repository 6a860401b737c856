/**
 * A language that nobody speaks, made of the catalogue as it is loaded: each English literal of
 * shared/text/en stands in ⟦ ⟧, figures and names of people do not. What a page shows outside these
 * marks does not come from the catalogue.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, createServer, type Plugin, type ViteDevServer } from 'vite';
import { englishNodes } from './english.ts';

const TOP = fileURLToPath(new URL('../../', import.meta.url));
/** Files that hold texts and nothing else: there a single small word is a text, too. */
const OF_PAGES =
  /\/shared\/text\/en\/((pages|cli|channels|server|logbook)\/|(notices|figure-names|label-lines|part-facts|checks\/before-after-report)\.ts)/;
const CATALOGUE = /\/shared\/text\/en\/.*\.ts$/;

/** For a build of the pages and for modules of the server alike. */
function pseudoLocale(): Plugin {
  return {
    name: 'pseudo-locale',
    enforce: 'pre',
    transform(code, id) {
      const file = id.split('?')[0] ?? id;
      return CATALOGUE.test(file) ? { code: marked(file, code), map: null } : undefined;
    },
  };
}

/** The pages in the pseudo-locale, in a folder of the test's own. */
export async function buildPseudoPages(): Promise<{ folder: string; remove: () => void }> {
  const folder = mkdtempSync(join(tmpdir(), 'pages-'));
  await build({
    configFile: `${TOP}dashboards/vite.config.ts`,
    logLevel: 'error',
    plugins: [pseudoLocale()],
    build: { outDir: folder, emptyOutDir: true },
  });
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) };
}

/** Loads modules of this project with the pseudo-locale in them. */
export async function openPseudoModules(): Promise<ViteDevServer> {
  return await createServer({
    root: TOP,
    configFile: false,
    logLevel: 'error',
    appType: 'custom',
    server: { middlewareMode: true, hmr: false, ws: false, watch: null },
    optimizeDeps: { noDiscovery: true },
    plugins: [pseudoLocale()],
  });
}

/** The source with each literal that a person reads in marks. Spaces at its ends stay outside. */
function marked(file: string, source: string): string {
  let result = '';
  let at = 0;
  for (const { start, end } of englishNodes(file, source, {
    of: OF_PAGES.test(file) ? 'pages' : 'catalogue',
  })) {
    const raw = source.slice(start, end);
    const [, open = '', text = '', close = ''] =
      /^((?:['"`}]\s*)?)([\s\S]*?)((?:\s*(?:['"`]|\$\{))?)$/.exec(raw) ?? [];
    result += `${source.slice(at, start)}${open}⟦${text}⟧${close}`;
    at = end;
  }
  return result + source.slice(at);
}

/** What is left of a text when all that is in marks is taken out. */
export function withoutMarked(text: string): string {
  const rest = text.replaceAll(/⟦[^⟦⟧]*⟧/g, ' ');
  return rest === text ? text : withoutMarked(rest);
}
