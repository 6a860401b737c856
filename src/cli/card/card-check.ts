/** `stillwell card check`: reads a file as an import would, without a server, and says what cannot be and what is odd. */
import { localDate } from '../../../shared/text/en/time-words.ts';
import { unflatten } from '../../../shared/card/flat-card.ts';
import { cardQuestions } from '../../core/domain/questions.ts';
import { cardIssues, readCard } from '../../core/domain/read-card.ts';
import { readCardFile } from './card-file.ts';
import { EXIT, type Io } from '../command.ts';

/** Exit 2 where a card cannot be; odd ones are no mistake. */
export async function checkCardFile(io: Io, path: string): Promise<number> {
  const { tasks, bad, rowName } = readCardFile(path);
  let odd = 0;
  let wrong = bad.length;
  for (const { line, reason } of bad) io.out(`${rowName} ${line}: ${reason}`);
  for (const { line, well, apply } of tasks) {
    const card = { ...unflatten(apply({})), well };
    const problems = cardIssues(card);
    if (problems.length > 0) wrong++;
    for (const { key, rule, valueText } of problems)
      io.out(`${rowName} ${line}, ${well}: ${key} ${rule}: ${valueText}`);
    const read = readCard(card);
    const questions =
      'card' in read ? cardQuestions(read.card, 'us', localDate(Date.now(), read.card.timeZone)) : [];
    odd += questions.length;
    for (const { key, question } of questions)
      io.out(`${rowName} ${line}, ${well}: is this right? ${key}: ${question}`);
  }
  io.out(`${tasks.length + bad.length} cards: ${wrong} cannot be read; ${odd} questions.`);
  return Promise.resolve(wrong === 0 ? EXIT.ok : EXIT.usage);
}
