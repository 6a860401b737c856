/**
 * The lines of a yield test: each with its time, level and flow, later ones after earlier ones, and
 * a flow somewhere, without which a drawdown says nothing.
 */
import { parseTestLine } from '../../../shared/quantity/parse-test-line.ts';
import { addIssue, type ParseContext } from '../../core/domain/parse-context.ts';
import type { EntryRule } from './read-entry.ts';
import { texts } from '../texts.ts';

export const yieldTestRule: EntryRule<'yield-test'> = (look, { points = [], recovery = [], flowLPerS }) => {
  const read = checkLines(look, 'points', points);
  checkLines(look, 'recovery', recovery);
  const hasFlow = flowLPerS !== undefined || read.some((point) => point.flowLPerS !== undefined);
  if (read.length > 0 && !hasFlow) addIssue(look, 'flow', texts().entry.flowOfTest);
};

function checkLines(look: ParseContext, key: 'points' | 'recovery', lines: readonly string[]) {
  let lastS = -1;
  return lines.flatMap((line) => {
    const read = parseTestLine(line);
    if ('problem' in read) {
      addIssue(look, key, read.problem, JSON.stringify(line));
      return [];
    }
    if (read.value.timeS <= lastS) addIssue(look, key, texts().entry.laterLines, JSON.stringify(line));
    lastS = read.value.timeS;
    return [read.value];
  });
}
