/** `stillwell card set`: fields of one card, upon the card as it stands. */
import { applyCells } from '../../logbook/card-table.ts';
import { isCardKey } from '../../../shared/card/fields.ts';
import { cardDifferences } from '../../../shared/card/differences.ts';
import { flatten, unflatten, type FlatCard } from '../../../shared/card/flat-card.ts';
import { EXIT, UsageError, type Io } from '../command.ts';
import { ApiError, type ServerApi } from '../server-api.ts';
import { texts } from './texts.ts';

export interface SetOptions {
  well: string;
  /** `pump.motor=3/4 hp`, as they were typed. */
  fields: readonly string[];
  isNew: boolean;
  json: boolean;
  by?: string;
}

export async function setCard(io: Io, api: ServerApi, options: SetOptions): Promise<number> {
  const { well, by } = options;
  const fields = readFields(options.fields);
  const before = await currentCard(api, options);
  const flat = applyCells(flatten(before.card), fields);
  if (!options.isNew && cardDifferences(flatten(before.card), flat).length === 0) {
    io.out(options.json ? JSON.stringify(before) : texts().cardOfSaysSoAlready(well));
    return EXIT.ok;
  }
  try {
    const answer = await api.post(
      'writeCard',
      { well },
      {
        card: { ...unflatten(flat), well },
        ...(before.act !== undefined && { basedOn: before.act }),
        ...(by !== undefined && { by }),
      },
    );
    if (options.json) io.out(JSON.stringify(answer));
    else {
      io.out(texts().savedTheCard(well));
      for (const { key, question } of answer.questions) io.out(texts().isThisRightOf({ key, question }));
    }
    return EXIT.ok;
  } catch (error) {
    if (!(error instanceof ApiError) || error.status !== 400) throw error;
    const reasons = error.fields.map(({ at, rule }) => `${at} ${rule}`);
    throw new UsageError(
      texts().nothingWasChanged(reasons.length === 0 ? error.message : reasons.join('; ')),
      {
        cause: error,
      },
    );
  }
}

/** A dash, as in a table, or nothing removes the field. */
function readFields(fields: readonly string[]): FlatCard {
  const entries = fields.map((field) => {
    const cut = field.indexOf('=');
    const typed = field.slice(0, Math.max(cut, 0)).trim();
    const key = typed === 'switch' ? 'switch.points' : typed;
    if (cut < 0 || !isCardKey(key) || key === 'well') throw new UsageError(texts().itMustBeAField(field));
    return [key, field.slice(cut + 1).trim() || '-'] as const;
  });
  return Object.fromEntries(entries);
}

async function currentCard(
  api: ServerApi,
  { well, isNew }: SetOptions,
): Promise<{ card: Record<string, unknown>; act?: string }> {
  try {
    const now = await api.get('card', { well });
    if (isNew && now.act !== undefined) throw new UsageError(texts().itHasACardAlready(well));
    return now;
  } catch (error) {
    if (!(error instanceof ApiError) || error.status !== 404) throw error;
    if (isNew) return { card: { well } };
    throw new UsageError(texts().thereIsNoSuchWell(well), { cause: error });
  }
}
