/** The proof of a visit as lines of text, in the words of its page: what was done, and each measure before and after. */
import type { EntryAnswer } from '../../../shared/api/book.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import type { UnitSystem } from '../../../shared/quantity/print-quantity.ts';
import {
  MEASURE_TITLES,
  PROOF_CAVEAT,
  proofStage,
  proofWords,
  sayMeasure,
  sideWords,
} from '../../../shared/words/proof.ts';
import type { Io } from './command.ts';

export interface ProofTold {
  well: string;
  units: UnitSystem;
  /** A moment in words. */
  when: (atMs: number) => string;
}

export function printProof(io: Io, proof: Answer<'proof'>, { well, units, when }: ProofTold): void {
  const { visit, pumps, days } = proof;
  const closed = visit.closedMs === undefined ? 'still open' : `closed ${when(visit.closedMs)}`;
  io.out(`Before and after, ${well}: visit of ${when(visit.openedMs)}; ${closed}`);
  for (const line of visit.work.flatMap(workLines)) io.out(`  ${line}`);
  if (visit.work.length === 0) io.out('  No work is written down.');
  for (const { pump, lines } of pumps) {
    if (pumps.length > 1) io.out(`Pump ${pump.slice(1)}`);
    for (const line of lines) {
      io.out(`${MEASURE_TITLES[line.measure]}: ${proofWords(line, proofStage(proof), units)}`);
      if (line.before.n === 0 && line.after.n === 0) continue;
      const usual =
        line.usual === undefined ? '' : ` Usual before: ${sayMeasure(line.measure, line.usual, units)}.`;
      io.out(
        `  before: ${sideWords(line, line.before, units)}; after: ${sideWords(line, line.after, units)}.${usual}`,
      );
    }
  }
  io.out(`Runs and whole days up to ${days} days on either side, or to the next visit. ${PROOF_CAVEAT}`);
}

export function workLines({ body, by }: EntryAnswer): string[] {
  const list = (key: string): string[] => {
    const value = body[key];
    return Array.isArray(value) ? value.filter((one) => typeof one === 'string') : [];
  };
  const { done, doneBy, text } = body;
  const [parts, touched, papers] = [list('parts'), list('touched'), list('papers')];
  const said = [
    parts.length === 0 ? '' : `parts: ${parts.join(', ')}`,
    touched.length === 0 ? '' : `touched ${touched.join(', ')}`,
    typeof doneBy === 'string' ? `done by ${doneBy}` : '',
    by === undefined ? '' : `written by ${by}`,
    papers.length === 0 ? '' : papers.length === 1 ? '1 photo or paper' : `${papers.length} photos or papers`,
    typeof text === 'string' ? text : '',
  ].filter((part) => part !== '');
  return [`${String(done)}${said.length === 0 ? '' : ` (${said.join('; ')})`}`];
}
