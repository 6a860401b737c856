/**
 * Cards as the pages and commands give and get them. A card is written whole, upon the one that it
 * changes.
 */
import type { WrittenCard } from '../../../shared/api/cards.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import { cardIn } from '../../../shared/card/changes.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { compareWithCard } from '../../logbook/readings/card-comparison.ts';
import type { Card } from '../../core/domain/card.ts';
import { cardQuestions } from '../../core/domain/questions.ts';
import { cardIssues, readCard } from '../../core/domain/read-card.ts';
import type { ApiRequest } from '../api-request.ts';
import type { WebDeps } from '../deps.ts';
import { mapInSlices } from '../in-slices.ts';
import { ProblemError } from '../problem.ts';
import { requireWell } from './well-answers.ts';
import { texts } from '../texts.ts';

export async function cardsAnswer(deps: WebDeps): Promise<Answer<'cards'>> {
  const names = (await deps.live.wells()).map(({ well }) => well);
  return { cards: await mapInSlices(names.sort(), (name) => writtenCard(deps, name)) };
}

export async function cardAnswer(deps: WebDeps, name: string): Promise<Answer<'card'>> {
  const { card, normals } = await requireWell(deps, name);
  const { well: _well, ...written } = await writtenCard(deps, name);
  return {
    ...written,
    questions: questionsInBothUnits(card, localDate(deps.now(), card.timeZone)),
    measured: compareWithCard({ card, normals, entries: await deps.logbook.entries(name) }),
  };
}

/** In both systems of units: which of them is read by is the page's to know. */
function questionsInBothUnits(card: Card, today: string): Answer<'card'>['questions'] {
  const metric = cardQuestions(card, 'metric', today);
  return cardQuestions(card, 'us', today).map(({ key, question }, at) => ({
    key,
    question,
    metric: metric[at]?.question ?? question,
  }));
}

async function writtenCard(deps: WebDeps, well: string): Promise<WrittenCard> {
  const act = await deps.logbook.writtenCard(well);
  if (!act) return { well, card: { well } };
  const { id, atMs, by } = act;
  return { well, card: cardIn(act.body), act: id, atMs, ...(by !== undefined && { by }) };
}

/**
 * @throws ProblemError 400 with every problem at its field; 409 where somebody else changed the
 * card meanwhile.
 */
export async function writeCard(deps: WebDeps, ask: ApiRequest<'writeCard'>): Promise<Answer<'card'>> {
  const well = ask.pathParam('well');
  const { card, basedOn, by } = ask.body;
  const read = readCard(card);
  if ('problem' in read) {
    const fields = cardIssues(card).map(({ key, rule, valueText }) => ({
      at: key,
      rule: `${rule}: ${valueText}`,
    }));
    throw new ProblemError(400, read.problem, fields);
  }
  if (read.card.well !== well)
    throw new ProblemError(400, texts().cardOfAnotherWell({ well, found: read.card.well }));
  rejectMissingPhotos(deps, read.card);
  const done = await deps.act({ kind: 'card-changed', card }, by, async () => {
    const before = await deps.logbook.writtenCard(well);
    return before?.id === basedOn ? undefined : conflictText(before?.by);
  });
  if ('problem' in done) throw new ProblemError(409, done.problem);
  return await cardAnswer(deps, well);
}

function rejectMissingPhotos(deps: WebDeps, { description }: Card): void {
  const lost = description?.electrical.photos.find((hash) => !deps.logbook.hasDocument(hash));
  if (lost === undefined) return;
  const rule = texts().photoIsMissing(lost);
  throw new ProblemError(400, texts().cannotReadCard({ field: 'electrical.photos', rule }), [
    { at: 'electrical.photos', rule },
  ]);
}

function conflictText(by: string | undefined): string {
  return by === undefined ? texts().cardChanged : texts().cardChangedBy(by);
}
