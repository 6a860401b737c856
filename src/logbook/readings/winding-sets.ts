/**
 * The ohms between the three leads of a motor, held against each other: what one number can't say.
 * They count as a set where all three were read within a day, pump by pump.
 */
import type { MotorJudgement } from '../../../shared/api/figures/motor-readings.ts';
import type { WindingSetAnswer } from '../../../shared/api/readings.ts';
import { LEAD_PAIRS } from '../../../shared/entries/entry-fields.ts';
import type { EntryOf } from '../../../shared/entries/entry.ts';
import { omitUndefined } from '../../../shared/omit-undefined.ts';
import { DAY_MS } from '../../../shared/units/duration.ts';
import type { Card, PumpCard } from '../../core/domain/card.ts';
import { loopOhm } from '../../core/domain/wire-resistance.ts';
import { readingSi } from '../entries/read-reading.ts';

/** Three ohms of one motor that should fit; two meters' errors and a warm lead (argued). */
const SUM_TOLERANCE_RATIO = 0.1;

/** `readings` that count, oldest first. */
export function windingSets(readings: readonly EntryOf<'reading'>[], card: Card): WindingSetAnswer[] {
  return card.pumps.flatMap((pump) => {
    const own = readings.filter(({ body }) => body.what === 'winding' && (body.pump ?? 'p1') === pump.id);
    const newest = LEAD_PAIRS.map((pair) => own.findLast(({ body }) => body.leads === pair));
    const times = newest.flatMap((entry) => entry?.atMs ?? []);
    const ohms = newest.flatMap((entry) => (entry ? (readingSi(entry.body)?.si ?? []) : []));
    const atMs = Math.max(...times);
    if (ohms.length < LEAD_PAIRS.length || atMs - Math.min(...times) > DAY_MS) return [];
    const wireOhm = loopOhm(card.description?.pumps[pump.id]?.wire);
    const [yellowBlack, yellowRed, redBlack] = ohms.map((ohm) => ohm - (wireOhm ?? 0));
    const set = { yellowBlack: yellowBlack!, yellowRed: yellowRed!, redBlack: redBlack! };
    const judgement = windingSetJudgement(set, pump.phase);
    return judgement ? [omitUndefined({ pump: pump.id, atMs, ...set, wireOhm, judgement })] : [];
  });
}

/** Ohms between the leads of one motor, the wire's taken off. */
interface Windings {
  yellowBlack: number;
  yellowRed: number;
  redBlack: number;
}

/**
 * A single-phase motor with three wires has its main winding between yellow and black and its start
 * winding, of more ohms, between yellow and red; from red to black both lie in line and add up. The
 * three windings of a three-phase motor are alike. (Physics of the connection; colors as US motors
 * have them, from memory.)
 */
function windingSetJudgement(
  { yellowBlack, yellowRed, redBlack }: Windings,
  phase: PumpCard['phase'],
): MotorJudgement | undefined {
  if (phase === 3) {
    const [low, high] = [Math.min, Math.max].map((pick) => pick(yellowBlack, yellowRed, redBlack));
    return high! <= low! * (1 + SUM_TOLERANCE_RATIO) ? 'windings-fit' : 'windings-differ';
  }
  if (phase !== 1) return undefined;
  const adds = Math.abs(yellowBlack + yellowRed - redBlack) <= SUM_TOLERANCE_RATIO * redBlack;
  if (!adds) return 'windings-do-not-add-up';
  return yellowRed > yellowBlack ? 'windings-fit' : 'start-under-main';
}
