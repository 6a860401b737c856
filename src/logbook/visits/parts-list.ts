/**
 * What to bring to a well: for each thing that the standing alarms and their causes put in
 * question, what the card says of it, and what nobody wrote down. Where nothing stands, every part
 * is listed, since the reason of the visit is not known here. A drop pipe is as long as the pump is
 * deep. Only what is known is said; sizes are never guessed from other sizes.
 */
import { alarmTitle } from '../../../shared/text/en/alarm-title.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { CAUSE_WORDS } from '../../../shared/text/en/causes/cause-words.ts';
import type { AlarmKind, Cause, WeighedCause } from '../../../shared/text/en/alarms/kinds.ts';
import type { Card } from '../../core/domain/card.ts';
import { collectPartFacts, type PartMeasurements } from './part-facts.ts';
import { partsForCause, type ServicePart } from './parts-for-cause.ts';

export interface PartsListItem {
  part: ServicePart;
  /** The pump that it belongs to, where the well has several. */
  pump?: string;
  /** What is known, ready to be read: "1 hp", "230 V". */
  known: string[];
  /** What should be known and is not. */
  unknown: string[];
  /**
   * Titles of alarms and names of causes that ask for it, weightiest first; empty where nothing
   * stands.
   */
  reasons: string[];
}

export interface ActiveAlarm {
  alarm: AlarmKind;
  pump?: string;
  causes: readonly WeighedCause[];
}

export interface PartsListInput {
  card: Card;
  active: readonly ActiveAlarm[];
  measured?: PartMeasurements;
  units: UnitSystem;
}

/** A cause that is this unlikely loads nobody's truck. */
const MIN_CAUSE_WEIGHT = 0.15;
const PARTS: readonly ServicePart[] = [
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
const DEFAULT_PARTS: readonly ServicePart[] = [
  'pump',
  'drop-pipe',
  'control-box',
  'switch',
  'tank',
  'electrical',
];
const PUMP_PARTS: readonly ServicePart[] = ['pump', 'drop-pipe', 'control-box'];

export function partsList(input: PartsListInput): PartsListItem[] {
  const { card, active, units } = input;
  const requested = requestedParts(active, card.pumps.length > 1);
  const listed =
    requested.length > 0 ? requested : DEFAULT_PARTS.map((part): RequestedPart => ({ part, reasons: [] }));
  return listed.flatMap(({ part, reasons, pump }) => {
    const pumps = PUMP_PARTS.includes(part)
      ? card.pumps.filter(({ id }) => pump === undefined || id === pump)
      : [];
    const item = (of: Card['pumps'][number] | undefined): PartsListItem => {
      const { known, unknown } = collectPartFacts(part, units, input, of);
      const named = pumps.length > 0 && card.pumps.length > 1 && of !== undefined;
      return { part, ...(named && { pump: of.id }), known, unknown, reasons };
    };
    return pumps.length === 0 ? [item(card.pumps[0])] : pumps.map(item);
  });
}

interface RequestedPart {
  part: ServicePart;
  pump?: string;
  reasons: string[];
}

/** In the order of PARTS, each once a pump, with everything that asks for it. */
function requestedParts(active: readonly ActiveAlarm[], several: boolean): RequestedPart[] {
  const found: (RequestedPart & { weight: number })[] = [];
  for (const { alarm, pump, causes } of active) {
    const likely = causes.filter(({ weight }) => weight >= MIN_CAUSE_WEIGHT);
    for (const { cause, weight } of likely)
      for (const part of partsForCause(cause)) {
        const own = several && PUMP_PARTS.includes(part) ? pump : undefined;
        add(found, { part, pump: own, why: causeText(cause, alarm), weight });
      }
  }
  const place = ({ part }: RequestedPart): number => PARTS.indexOf(part);
  return found
    .toSorted((a, b) => place(a) - place(b) || b.weight - a.weight)
    .map(({ weight: _weight, ...one }) => one);
}

function causeText(cause: Cause, alarm: AlarmKind): string {
  return `${CAUSE_WORDS[cause].name} (${alarmTitle(alarm)})`;
}

function add(
  found: (RequestedPart & { weight: number })[],
  { part, pump, why, weight }: { part: ServicePart; pump: string | undefined; why: string; weight: number },
): void {
  const one = found.find((other) => other.part === part && other.pump === pump);
  if (!one) found.push({ part, ...(pump !== undefined && { pump }), reasons: [why], weight });
  else if (!one.reasons.includes(why)) one.reasons.push(why);
}
