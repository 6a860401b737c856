/**
 * The engine with one of its thresholds scaled, without a source file being touched: all of it is
 * bundled once into one function, in which each threshold asks what it is to be. Each call of that
 * function is an engine of its own, made within milliseconds.
 */
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { Script } from 'node:vm';
import { build, type Plugin } from 'vite';
import { withScaled, withUses } from './rewrite-source.ts';

export type Engine = typeof import('./engine-parts.ts');
export type Watches = typeof import('./watch-parts.ts');
/** Says what a threshold is to be, from its id and what its source says. */
export type Scale = (id: string, value: number) => number;
type Make<Parts> = (scale: Scale) => Parts;

const ALARMS = '/src/core/alarms/lifecycle/alarms.ts';
/** The two that hand the watches what they see. */
const SHOWS_SCENES = /\/src\/core\/well\/(evaluate-watches|apply-act)\.ts$/;

/** From readings to alarms. `top` is the project's folder. */
export function bundleEngine(top: string): Promise<Make<Engine>> {
  return bundle(top, 'engine-parts.ts');
}

/** The watches and the life of their alarms alone. */
export function bundleWatches(top: string): Promise<Make<Watches>> {
  return bundle(top, 'watch-parts.ts');
}

/**
 * The same as they are, telling which constants (`file NAME`) they use, at their making and after.
 */
export async function bundleUses(top: string): Promise<(used: (constantId: string) => void) => Watches> {
  const make = await script(top, 'watch-parts.ts', withUses);
  return (used) => make({ used }) as Watches;
}

async function bundle<Parts>(top: string, entry: string): Promise<Make<Parts>> {
  const make = await script(top, entry, withScaled);
  return (scaled) => make({ scaled }) as Parts;
}

interface Hooks {
  scaled?: Scale;
  used?: (constantId: string) => void;
}

/** All that an entry file needs as one function, which makes it anew at each call. */
async function script(
  top: string,
  entry: string,
  rewrite: typeof withScaled,
): Promise<(hooks: Hooks) => unknown> {
  const built = await build({
    root: top,
    configFile: false,
    logLevel: 'error',
    plugins: [rewritten(top, rewrite), observed(top)],
    ssr: { noExternal: true },
    build: {
      ssr: join(top, 'src/lab/sensitivity', entry),
      write: false,
      minify: false,
      target: 'node20',
      rolldownOptions: { output: { format: 'cjs', codeSplitting: false } },
    },
  });
  const [{ output }] = [built].flat() as unknown as [{ output: readonly { code: string }[] }];
  const compiled = new Script(
    `(function ({ scaled, used }, require, module, exports) {${output[0]!.code}\n})`,
  );
  const make = compiled.runInThisContext() as (hooks: Hooks, ...rest: unknown[]) => void;
  const require = createRequire(import.meta.url);
  return (hooks) => {
    const module = { exports: {} };
    make(hooks, require, module, module.exports);
    return module.exports;
  };
}

/** Each source of the watches and of hydraulics, rewritten (./rewrite-source.ts). */
function rewritten(top: string, rewrite: typeof withScaled): Plugin {
  return {
    name: 'rewritten-thresholds',
    enforce: 'pre',
    transform(code, id) {
      const file = id.startsWith(top) ? id.slice(top.length).replace(/^\//, '') : '';
      if (!/^src\/core\/(alarms|hydraulics)\//.test(file)) return undefined;
      return { code: rewrite(file, code), map: null };
    },
  };
}

/** Shows to an observer what the watches are shown (./observed-alarms.ts). */
function observed(top: string): Plugin {
  return {
    name: 'observed-alarms',
    enforce: 'pre',
    async resolveId(source, importer) {
      if (importer === undefined || !SHOWS_SCENES.test(importer)) return undefined;
      const found = await this.resolve(source, importer, { skipSelf: true });
      return found?.id.endsWith(ALARMS) ? join(top, 'src/lab/sensitivity/observed-alarms.ts') : found;
    },
  };
}
