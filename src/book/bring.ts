/**
 * What to bring to a well: for each thing that the standing alarms and their causes put in question, what the card says of it, and what
 * nobody wrote down. Where nothing stands, every part is listed, since the reason of the visit is not known here. A drop pipe is as long
 * as the pump is deep. Only what is known is said; sizes are never guessed from other sizes.
 */
import { alarmTitle } from '../../shared/api/alarm-title.ts';
import type { UnitSystem } from '../../shared/quantity/print-quantity.ts';
import { CAUSE_WORDS } from '../../shared/words/cause-words.ts';
import type { AlarmKind, Cause, WeighedCause } from '../../shared/words/kinds.ts';
import type { Card } from '../card/card.ts';
import { factsOf, type Measured } from './bring-facts.ts';
import { partsFor, type Part } from './bring-parts.ts';

export interface BringItem {
  part: Part;
  /** The pump that it belongs to, where the well has several. */
  pump?: string;
  /** What is known, ready to be read: "1 hp", "230 V". */
  known: string[];
  /** What should be known and is not. */
  unknown: string[];
  /** Titles of alarms and names of causes that ask for it, weightiest first; empty where nothing stands. */
  because: string[];
}

export interface StandingAlarm {
  alarm: AlarmKind;
  pump?: string;
  causes: readonly WeighedCause[];
}

export interface BringQuestion {
  card: Card;
  standing: readonly StandingAlarm[];
  measured?: Measured;
  units: UnitSystem;
}

/** A cause that is this unlikely loads nobody's truck. */
const LEAST_WEIGHT = 0.15;
const PARTS: readonly Part[] = [
  'pump',
  'drop-pipe',
  'control-box',
  'switch',
  'tank',
  'fittings',
  'electrical',
  'sensors',
  'level',
];
/** What is listed where nothing stands. */
const USUAL: readonly Part[] = ['pump', 'drop-pipe', 'control-box', 'switch', 'tank', 'electrical'];
const OF_PUMP: readonly Part[] = ['pump', 'drop-pipe', 'control-box'];

export function bringOf(question: BringQuestion): BringItem[] {
  const { card, standing, units } = question;
  const asked = askedFor(standing, card.pumps.length > 1);
  const listed = asked.length > 0 ? asked : USUAL.map((part): Asked => ({ part, because: [] }));
  return listed.flatMap(({ part, because, pump }) => {
    const pumps = OF_PUMP.includes(part)
      ? card.pumps.filter(({ id }) => pump === undefined || id === pump)
      : [];
    const item = (of: Card['pumps'][number] | undefined): BringItem => {
      const { known, unknown } = factsOf(part, units, question, of);
      const named = pumps.length > 0 && card.pumps.length > 1 && of !== undefined;
      return { part, ...(named && { pump: of.id }), known, unknown, because };
    };
    return pumps.length === 0 ? [item(card.pumps[0])] : pumps.map(item);
  });
}

interface Asked {
  part: Part;
  pump?: string;
  because: string[];
}

/** In the order of PARTS, each once a pump, with everything that asks for it. */
function askedFor(standing: readonly StandingAlarm[], several: boolean): Asked[] {
  const found: (Asked & { weight: number })[] = [];
  for (const { alarm, pump, causes } of standing) {
    const likely = causes.filter(({ weight }) => weight >= LEAST_WEIGHT);
    for (const { cause, weight } of likely)
      for (const part of partsFor(cause)) {
        const own = several && OF_PUMP.includes(part) ? pump : undefined;
        add(found, { part, pump: own, why: because(cause, alarm), weight });
      }
  }
  const place = ({ part }: Asked): number => PARTS.indexOf(part);
  return found
    .toSorted((a, b) => place(a) - place(b) || b.weight - a.weight)
    .map(({ weight: _weight, ...one }) => one);
}

function because(cause: Cause, alarm: AlarmKind): string {
  return `${CAUSE_WORDS[cause].name} (${alarmTitle(alarm)})`;
}

function add(
  found: (Asked & { weight: number })[],
  { part, pump, why, weight }: { part: Part; pump: string | undefined; why: string; weight: number },
): void {
  const one = found.find((asked) => asked.part === part && asked.pump === pump);
  if (!one) found.push({ part, ...(pump !== undefined && { pump }), because: [why], weight });
  else if (!one.because.includes(why)) one.because.push(why);
}
