/** What people write down of a well, as the pages give and get it. A card is written whole, upon the one that it changes. */
import type { Answer } from '../../shared/api/routes.ts';
import { readCard } from '../card/read-card.ts';
import { questionsOfCard } from '../card/questions.ts';
import type { Ask } from './ask.ts';
import type { EntryResult, WebDeps } from './deps.ts';
import { ProblemError } from './problem.ts';
import { wellNamed } from './well-answers.ts';

export function cardAnswer(deps: WebDeps, name: string): Answer<'card'> {
  const { card } = wellNamed(deps, name);
  const act = deps.desk.writtenCard(name);
  const written = act === undefined ? { well: name } : cardOf(act.body);
  return {
    card: written,
    ...(act && { act: act.id, atMs: act.atMs, ...(act.by !== undefined && { by: act.by }) }),
    questions: questionsOfCard(card),
  };
}

/** The card that an act wrote down. */
function cardOf(body: unknown): Record<string, unknown> {
  const card = typeof body === 'object' && body !== null && 'card' in body ? body.card : undefined;
  return typeof card === 'object' && card !== null ? { ...card } : {};
}

export async function writeCard(deps: WebDeps, ask: Ask<'writeCard'>): Promise<Answer<'card'>> {
  const well = ask.part('well');
  const { card, basedOn, by } = ask.body;
  const read = readCard(card);
  if ('problem' in read) throw new ProblemError(400, read.problem);
  if (read.card.well !== well)
    throw new ProblemError(400, `Cannot read card: well must be ${well}: ${read.card.well}`);
  const before = deps.desk.writtenCard(well);
  if (before?.id !== basedOn) throw new ProblemError(409, changedMeanwhile(before?.by));
  const done = await deps.act({ kind: 'card-changed', card }, by);
  if ('no' in done) throw new ProblemError(409, done.no);
  return cardAnswer(deps, well);
}

function changedMeanwhile(by: string | undefined): string {
  const who = by === undefined ? 'Somebody' : by;
  return `${who} changed this card after you opened it. Look at what changed, then write yours again.`;
}

export function writeEntry(deps: WebDeps, ask: Ask<'writeEntry'>): Answer<'writeEntry'> {
  const { now } = wellNamed(deps, ask.part('well'));
  return kept(deps.desk.write({ ...ask.body.entry, well: now.well }, ask.body.by));
}

export function kept(result: EntryResult): Answer<'writeEntry'> {
  if ('no' in result) throw new ProblemError(409, result.no);
  return result;
}
