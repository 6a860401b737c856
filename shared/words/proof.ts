/** The proof of a visit in words: each measure's name, its values, and one sentence that claims no more than was seen. */
import type { ProofLineAnswer, ProofMeasure, ProofSide, VisitAnswer } from '../api/visits.ts';
import { printNumber, printQuantity, type UnitSystem } from '../quantity/print-quantity.ts';
import { sayAmps, sayDuration, sayFlow, sayVolume } from './format.ts';

export const MEASURE_TITLES: Record<ProofMeasure, string> = {
  amps: 'Running amps',
  'fill-time': 'Time of a fill',
  'cut-in': 'Cut-in',
  'cut-out': 'Cut-out',
  'cycles-a-day': 'Cycles a day',
  leak: 'Leak',
  delivery: 'Delivery',
};

/** What each measure is taken from, where its name does not say it. */
export const MEASURE_NOTES: Partial<Record<ProofMeasure, string>> = {
  'fill-time': 'the quicker half of the runs, which is nearest to a fill with every tap shut',
  'cycles-a-day': 'whole days that were heard',
  leak: 'whole days with quiet minutes to judge by',
  delivery: 'all water that the pump lifted, over the time it ran',
};

const SAY: Record<ProofMeasure, (value: number, units: UnitSystem) => string> = {
  amps: sayAmps,
  'fill-time': sayDuration,
  'cut-in': pressure,
  'cut-out': pressure,
  'cycles-a-day': (n) => printNumber(n, n < 10 ? 1 : 0),
  leak: (l, units) => `${sayVolume(l, units)} a day`,
  delivery: sayFlow,
};

/** With a decimal: what changed is often a pound or two. */
function pressure(kpa: number, units: UnitSystem): string {
  return printQuantity(kpa, 'pressure', units, units === 'us' ? 1 : 0);
}

export function sayMeasure(measure: ProofMeasure, value: number, units: UnitSystem): string {
  return SAY[measure](value, units);
}

export interface ProofStage {
  /** The visit is still open. */
  open: boolean;
  /** The days after it are over: what is not known by now will not be. */
  over: boolean;
}

const DAY_MS = 86_400_000;

/** `days`: how far both sides reach. */
export function proofStage(proof: { visit: VisitAnswer; nowMs: number; days: number }): ProofStage {
  const { closedMs } = proof.visit;
  return {
    open: closedMs === undefined,
    over: closedMs !== undefined && proof.nowMs - closedMs > proof.days * DAY_MS,
  };
}

/** "14 runs, 7.9 A, spread 0.1 A". */
export function sideWords(
  line: ProofLineAnswer,
  { n, median, spread }: ProofSide,
  units: UnitSystem,
): string {
  const { measure } = line;
  const of = countedOf(line);
  if (median === undefined) return `no ${of}`;
  return `${n} ${of}, ${sayMeasure(measure, median, units)}, spread ${sayMeasure(measure, spread ?? 0, units)}`;
}

export function proofWords(line: ProofLineAnswer, stage: ProofStage, units: UnitSystem): string {
  const say = (value: number): string => sayMeasure(line.measure, value, units);
  const { before, after, needed, by = 0, over = 0 } = line;
  const of = countedOf(line);
  const [was, is] = [say(before.median ?? 0), say(after.median ?? 0)];
  switch (line.verdict) {
    case 'not-known-yet':
      return notKnown(line, stage);
    case 'no-before':
      return `${is} after. Too little was seen before the visit to compare it with: ${before.n} of ${needed} ${of}.`;
    case 'within-spread':
      return `${was} before, ${is} after: no further apart than scatter and what the sensors can tell apart (${say(over)}).`;
    case 'changed':
      return `${was} before, ${is} after: ${say(Math.abs(by))} ${by > 0 ? 'more' : 'less'}. Scatter and what the sensors can tell apart: ${say(over)}.`;
    default:
      return line.verdict satisfies never;
  }
}

/** Of the fills half count, so that nobody misses the other half of the runs that were seen. */
function countedOf({ measure, of }: ProofLineAnswer): string {
  return measure === 'fill-time' ? 'quicker runs' : of;
}

function notKnown(line: ProofLineAnswer, { open, over }: ProofStage): string {
  const { after, needed } = line;
  const of = countedOf(line);
  if (open) return 'Not known yet: the visit is still open.';
  if (over) return `Not known: ${after.n} of ${needed} ${of} were seen after the visit.`;
  return `Not known yet: ${after.n} of ${needed} ${of} since the visit was closed.`;
}

/** What the proof as a whole may be taken for. */
export const PROOF_CAVEAT =
  'This compares what was measured on both sides of a visit. Where something changed it says by how much; it does not say that the work caused it, that the water is fit to drink, or that it will last.';
