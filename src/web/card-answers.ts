/** Cards as the pages and commands give and get them. A card is written whole, upon the one that it changes. */
import type { WrittenCard } from '../../shared/api/cards.ts';
import type { Answer } from '../../shared/api/routes.ts';
import { cardIn } from '../../shared/card/changes.ts';
import { localDate } from '../../shared/api/time-words.ts';
import { measuredBeside } from '../book/measured.ts';
import type { Card } from '../card/card.ts';
import { questionsOfCard } from '../card/questions.ts';
import { problemsOfCard, readCard } from '../card/read-card.ts';
import type { Ask } from './ask.ts';
import type { WebDeps } from './deps.ts';
import { ProblemError } from './problem.ts';
import { wellNamed } from './well-answers.ts';

export function cardsAnswer(deps: WebDeps): Answer<'cards'> {
  const names = deps.live.wells().map(({ well }) => well);
  return { cards: names.sort().map((name) => writtenCard(deps, name)) };
}

export function cardAnswer(deps: WebDeps, name: string): Answer<'card'> {
  const { card, usual } = wellNamed(deps, name);
  const { well: _well, ...written } = writtenCard(deps, name);
  return {
    ...written,
    questions: questionsIn(card, localDate(deps.now(), card.timeZone)),
    measured: measuredBeside({ card, usual, entries: deps.desk.entries(name) }),
  };
}

/** In both systems of units: which of them is read by is the page's to know. */
function questionsIn(card: Card, today: string): Answer<'card'>['questions'] {
  const metric = questionsOfCard(card, 'metric', today);
  return questionsOfCard(card, 'us', today).map(({ key, question }, at) => ({
    key,
    question,
    metric: metric[at]?.question ?? question,
  }));
}

function writtenCard(deps: WebDeps, well: string): WrittenCard {
  const act = deps.desk.writtenCard(well);
  if (!act) return { well, card: { well } };
  const { id, atMs, by } = act;
  return { well, card: cardIn(act.body), act: id, atMs, ...(by !== undefined && { by }) };
}

/** @throws ProblemError 400 with every problem at its field; 409 where somebody else changed the card meanwhile. */
export async function writeCard(deps: WebDeps, ask: Ask<'writeCard'>): Promise<Answer<'card'>> {
  const well = ask.part('well');
  const { card, basedOn, by } = ask.body;
  const read = readCard(card);
  if ('problem' in read) {
    const fields = problemsOfCard(card).map(({ key, rule, shown }) => ({
      at: key,
      rule: `${rule}: ${shown}`,
    }));
    throw new ProblemError(400, read.problem, fields);
  }
  if (read.card.well !== well)
    throw new ProblemError(400, `Cannot read card: well must be ${well}: ${read.card.well}`);
  refuseMissingPhotos(deps, read.card);
  const before = deps.desk.writtenCard(well);
  if (before?.id !== basedOn) throw new ProblemError(409, changedMeanwhile(before?.by));
  const done = await deps.act({ kind: 'card-changed', card }, by);
  if ('no' in done) throw new ProblemError(409, done.no);
  return cardAnswer(deps, well);
}

function refuseMissingPhotos(deps: WebDeps, { described }: Card): void {
  const lost = described?.electrical.photos.find((hash) => !deps.desk.hasPaper(hash));
  if (lost === undefined) return;
  const rule = `must be papers that are kept here, and there is none of this hash: ${lost}`;
  throw new ProblemError(400, `Cannot read card: electrical.photos ${rule}`, [
    { at: 'electrical.photos', rule },
  ]);
}

function changedMeanwhile(by: string | undefined): string {
  const who = by === undefined ? 'Somebody' : by;
  return `${who} changed this card after you opened it. Look at what changed, then write yours again.`;
}
