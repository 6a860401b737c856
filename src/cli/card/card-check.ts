/**
 * `stillwell card check`: reads a file as an import would, without a server, and says what cannot
 * be and what is odd.
 */
import { localDate } from '../../../shared/text/en/time-words.ts';
import { unflatten } from '../../../shared/card/flat-card.ts';
import { cardQuestions } from '../../core/domain/questions.ts';
import { cardIssues, readCard } from '../../core/domain/read-card.ts';
import { readCardFile } from './card-file.ts';
import { EXIT, type Io } from '../command.ts';
import { mistakeLines, type RowMistake } from '../mistake-lines.ts';
import { texts } from './texts.ts';

/** Exit 2 if a card cannot be read; a question is no mistake. */
export function checkCardFile(io: Io, path: string, json: boolean): number {
  const { tasks, bad, rowName } = readCardFile(path);
  let odd = 0;
  let wrong = bad.length;
  const findings: Finding[] = [];
  const say = (finding: Finding): void => void findings.push(finding);
  for (const { line, reason } of bad) say({ line, problem: reason });
  for (const { line, well, apply } of tasks) {
    const card = { ...unflatten(apply({})), well };
    const problems = cardIssues(card);
    if (problems.length > 0) wrong++;
    for (const { key, rule, valueText } of problems)
      say({ line, well, problem: `${key} ${rule}: ${valueText}` });
    const read = readCard(card);
    const questions =
      'card' in read ? cardQuestions(read.card, 'us', localDate(Date.now(), read.card.timeZone)) : [];
    odd += questions.length;
    for (const { key, question } of questions) say({ line, well, question: `${key}: ${question}` });
  }
  if (json) for (const finding of findings) io.out(JSON.stringify(finding));
  else {
    for (const line of mistakeLines(findings.map(asMistake), texts().rows[rowName])) io.out(line);
    io.out(
      texts().cannotBeRead({
        cards: tasks.length + bad.length,
        wrong,
        questions: odd,
      }),
    );
  }
  return wrong === 0 ? EXIT.ok : EXIT.usage;
}

/** One finding in a file of cards. `line` is that of the table, or the place in the list. */
interface Finding {
  line: number;
  well?: string;
  problem?: string;
  question?: string;
}

function asMistake({ line, well, problem, question }: Finding): RowMistake {
  const reason = problem ?? texts().isThisRight(question ?? '');
  return { line, reason, ...(well !== undefined && { well }) };
}
