/** `stillwell card set`: fields of one card, upon the card as it stands. */
import { withSaid } from '../../book/card-table.ts';
import { isCardKey } from '../../../shared/card/fields.ts';
import { differences } from '../../../shared/card/differences.ts';
import { flatten, unflatten, type Flat } from '../../../shared/card/flat.ts';
import { EXIT, Misuse, type Io } from './command.ts';
import { Refused, type ServerApi } from './server-api.ts';

export interface SetOptions {
  well: string;
  /** `pump.motor=3/4 hp`, as they were typed. */
  fields: readonly string[];
  isNew: boolean;
  by?: string;
}

export async function setCard(io: Io, api: ServerApi, options: SetOptions): Promise<number> {
  const { well, by } = options;
  const says = readFields(options.fields);
  const before = await cardNow(api, options);
  const flat = withSaid(flatten(before.card), says);
  if (!options.isNew && differences(flatten(before.card), flat).length === 0) {
    io.out(`The card of ${well} says so already.`);
    return EXIT.ok;
  }
  try {
    const { questions } = await api.tell(
      'writeCard',
      { well },
      {
        card: { ...unflatten(flat), well },
        ...(before.act !== undefined && { basedOn: before.act }),
        ...(by !== undefined && { by }),
      },
    );
    io.out(`The card of ${well} is kept.`);
    for (const { key, question } of questions) io.out(`Is this right? ${key}: ${question}`);
    return EXIT.ok;
  } catch (error) {
    if (!(error instanceof Refused) || error.status !== 400) throw error;
    const reasons = error.fields.map(({ at, rule }) => `${at} ${rule}`);
    throw new Misuse(`Nothing was changed. ${reasons.length === 0 ? error.message : reasons.join('; ')}`, {
      cause: error,
    });
  }
}

/** A dash, as in a table, or nothing takes the field out. */
function readFields(fields: readonly string[]): Flat {
  if (fields.length === 0)
    throw new Misuse('Fields are expected: stillwell card set WELL pump.motor="3/4 hp" …');
  const said = fields.map((field) => {
    const cut = field.indexOf('=');
    const typed = field.slice(0, Math.max(cut, 0)).trim();
    const key = typed === 'switch' ? 'switch.points' : typed;
    if (cut < 0 || !isCardKey(key) || key === 'well')
      throw new Misuse(
        `Cannot read "${field}": it must be a field of the card and its value, as pump.motor="3/4 hp"`,
      );
    return [key, field.slice(cut + 1).trim() || '-'] as const;
  });
  return Object.fromEntries(said);
}

async function cardNow(
  api: ServerApi,
  { well, isNew }: SetOptions,
): Promise<{ card: Record<string, unknown>; act?: string }> {
  try {
    const now = await api.ask('card', { well });
    if (isNew && now.act !== undefined) throw new Misuse(`Cannot write down ${well} as new: it has a card`);
    return now;
  } catch (error) {
    if (!(error instanceof Refused) || error.status !== 404) throw error;
    if (isNew) return { card: { well } };
    throw new Misuse(`There is no well ${well}. Is it a new one? Then add --new`, { cause: error });
  }
}
