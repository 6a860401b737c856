/** Cards as the pages and commands give and get them. A card is written whole, upon the one that it changes. */
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
import { ProblemError } from '../problem.ts';
import { requireWell } from './well-answers.ts';

export function cardsAnswer(deps: WebDeps): Answer<'cards'> {
  const names = deps.live.wells().map(({ well }) => well);
  return { cards: names.sort().map((name) => writtenCard(deps, name)) };
}

export function cardAnswer(deps: WebDeps, name: string): Answer<'card'> {
  const { card, normals } = requireWell(deps, name);
  const { well: _well, ...written } = writtenCard(deps, name);
  return {
    ...written,
    questions: questionsInBothUnits(card, localDate(deps.now(), card.timeZone)),
    measured: compareWithCard({ card, normals, entries: deps.logbook.entries(name) }),
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

function writtenCard(deps: WebDeps, well: string): WrittenCard {
  const act = deps.logbook.writtenCard(well);
  if (!act) return { well, card: { well } };
  const { id, atMs, by } = act;
  return { well, card: cardIn(act.body), act: id, atMs, ...(by !== undefined && { by }) };
}

/** @throws ProblemError 400 with every problem at its field; 409 where somebody else changed the card meanwhile. */
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
    throw new ProblemError(400, `Cannot read card: well must be ${well}: ${read.card.well}`);
  rejectMissingPhotos(deps, read.card);
  const before = deps.logbook.writtenCard(well);
  if (before?.id !== basedOn) throw new ProblemError(409, conflictText(before?.by));
  const done = await deps.act({ kind: 'card-changed', card }, by);
  if ('problem' in done) throw new ProblemError(409, done.problem);
  return cardAnswer(deps, well);
}

function rejectMissingPhotos(deps: WebDeps, { description }: Card): void {
  const lost = description?.electrical.photos.find((hash) => !deps.logbook.hasDocument(hash));
  if (lost === undefined) return;
  const rule = `must be papers that are kept here, and there is none of this hash: ${lost}`;
  throw new ProblemError(400, `Cannot read card: electrical.photos ${rule}`, [
    { at: 'electrical.photos', rule },
  ]);
}

function conflictText(by: string | undefined): string {
  const who = by === undefined ? 'Somebody' : by;
  return `${who} changed this card after you opened it. Look at what changed, then write yours again.`;
}
