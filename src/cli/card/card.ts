/** `stillwell card`: the cards of a running server's wells, looked at, changed, checked, and as a table out and in. */
import { UsageError, type Command } from '../command.ts';
import { checkCardFile } from './card-check.ts';
import { exportCards } from './card-export.ts';
import { importCards } from './card-import.ts';
import { setCard } from './card-set.ts';
import { listCards, showCard, showHistory } from './card-show.ts';
import { readOptions } from '../options.ts';
import { serverApi, DEFAULT_SERVER } from '../server-api.ts';

export const cardCommand: Command = {
  name: 'card',
  usage:
    'card list | show WELL | set WELL KEY=VALUE … | history WELL | check FILE | export [--csv] [FILE] | import FILE',
  about:
    'The cards of your wells: look at them, change them, check a file, and take a whole list in or out as a table.',
  more: `The server must be running, but for "check". Quantities are written with their unit, as on the page.

  list             all wells, each with its state and when its card was last changed
  show WELL        all that the card says, what is odd about it, and what was measured beside it
  set WELL pump.motor="3/4 hp" switch=40/60 tank.maker=
                   change fields; what has nothing behind its = is taken out. With --new a well that is not there yet
  history WELL     who changed what, and when
  check FILE       read a card (.json) or a list of wells (.csv) without a server: what cannot be, and what is odd
  export [FILE]    all cards, as JSON or with --csv (or a FILE that ends in .csv) as a table; to stdout without FILE
  import FILE      a table (.csv): a row a well, a column a field; an empty cell leaves the field as it is, a lone - takes it
                   out. Or a list of whole cards (.json). Nothing is taken while a row is wrong, unless with --skip-bad

  --server ADDRESS  the running server (${DEFAULT_SERVER} unless given)
  --by NAME         who changes it, for the record (your name on this computer unless given)
  --new             set: write down a new well
  --csv             export: as a table
  --all-columns     export: also columns that no card fills
  --skip-bad        import: leave out rows that are wrong, and take the others
  --dry-run         import: say what would change, and change nothing

A table is UTF-8, parted by commas (RFC 4180). Its columns are called as "show" calls the fields: well, site, pump.motor,
pump.setDepth, switch, tank.precharge, hole.depth, electrical.breaker, where.tank, owner … Lists are parted by "; ". Of a well
with several pumps the columns are pumps.p1.pump.motor, pumps.p2.pump.motor …`,
  async run(args, io) {
    const { flags, names } = readOptions(args, {
      server: { type: 'string' },
      by: { type: 'string' },
      new: { type: 'boolean' },
      csv: { type: 'boolean' },
      'all-columns': { type: 'boolean' },
      'skip-bad': { type: 'boolean' },
      'dry-run': { type: 'boolean' },
    });
    const [verb, name, ...more] = names;
    const by = (flags.by ?? io.env['USER'] ?? io.env['USERNAME'])?.trim();
    const actor = by === undefined || by === '' ? {} : { by };
    const api = serverApi(flags.server);
    if (verb === 'set')
      return setCard(io, api, {
        well: requireName(name, 'set WELL'),
        fields: more,
        isNew: flags.new === true,
        ...actor,
      });
    if (more.length > 0) throw new UsageError(`Cannot read "${more[0]}": one name is expected`);
    switch (verb ?? '') {
      case 'list':
        return listCards(io, api);
      case 'show':
        return showCard(io, api, requireName(name, 'show WELL'));
      case 'history':
        return showHistory(io, api, requireName(name, 'history WELL'));
      case 'check':
        return checkCardFile(io, requireName(name, 'check FILE'));
      case 'export':
        return exportCards(io, api, {
          file: name,
          csv: flags.csv === true,
          all: flags['all-columns'] === true,
        });
      case 'import':
        return importCards(io, api, {
          file: requireName(name, 'import FILE'),
          skipBad: flags['skip-bad'] === true,
          dryRun: flags['dry-run'] === true,
          ...actor,
        });
      default:
        throw new UsageError(
          `Cannot do "${verb ?? ''}": list, show, set, history, check, export or import is expected. Try: stillwell card --help`,
        );
    }
  },
};

function requireName(name: string | undefined, how: string): string {
  if (name === undefined) throw new UsageError(`A name is expected: stillwell card ${how}`);
  return name;
}
