/** `stillwell card check`: reads a file as an import would, without a server, and says what cannot be and what is odd. */
import { localDate } from '../../../shared/api/time-words.ts';
import { unflatten } from '../../../shared/card/flat.ts';
import { questionsOfCard } from '../../card/questions.ts';
import { problemsOfCard, readCard } from '../../card/read-card.ts';
import { readCardFile } from './card-file.ts';
import { EXIT, type Io } from './command.ts';

/** Exit 2 where a card cannot be; odd ones are no mistake. */
export async function checkFile(io: Io, path: string): Promise<number> {
  const { tasks, bad, place } = readCardFile(path);
  let odd = 0;
  let wrong = bad.length;
  for (const { line, reason } of bad) io.out(`${place} ${line}: ${reason}`);
  for (const { line, well, from } of tasks) {
    const card = { ...unflatten(from({})), well };
    const problems = problemsOfCard(card);
    if (problems.length > 0) wrong++;
    for (const { key, rule, shown } of problems)
      io.out(`${place} ${line}, ${well}: ${key} ${rule}: ${shown}`);
    const read = readCard(card);
    const asked =
      'card' in read ? questionsOfCard(read.card, 'us', localDate(Date.now(), read.card.timeZone)) : [];
    odd += asked.length;
    for (const { key, question } of asked)
      io.out(`${place} ${line}, ${well}: is this right? ${key}: ${question}`);
  }
  io.out(`${tasks.length + bad.length} cards: ${wrong} cannot be read; ${odd} questions.`);
  return Promise.resolve(wrong === 0 ? EXIT.ok : EXIT.misused);
}
