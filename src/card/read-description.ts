/**
 * The descriptive part of a card: makers, hole, wiring, treatment, places and people. Its keys stand beside those that the engine reads
 * (`pump.maker` beside `pump.motor`), since whoever writes a card thinks of the pump and not of the engine.
 */
import type { CardDescription, PumpDescription, TankDescription } from './description.ts';
import { PLACES } from './description.ts';
import { LONGEST_LINE, LONGEST_TEXT, MOST_TREATMENTS } from './limits.ts';
import { dateAt, given, lookInto, textAt, textsAt } from './look.ts';
import type { Look } from './look.ts';
import { ELECTRICAL_KEYS, readElectrical } from './read-electrical.ts';
import { HOLE_KEYS, readHole } from './read-hole.ts';

/** Keys of the whole card that are looked through here. */
export const DESCRIBED_KEYS = [
  'hole',
  'electrical',
  'treatment',
  'where',
  'owner',
  'address',
  'contact',
  'firm',
] as const;
/** Keys of a pump and of the tank that are looked through here. */
export const PUMP_DESCRIBED_KEYS = ['maker', 'model', 'controlBox', 'installer', 'drive', 'float'] as const;
export const TANK_DESCRIBED_KEYS = ['maker', 'model', 'installer', 'installed'] as const;

/** `pumps`: the look at each pump's object, by its name. Undefined where nothing is said; problems are noted in `card`. */
export function readDescription(
  card: Look,
  parts: { pumps: ReadonlyMap<string, Look>; tank: Look | undefined },
): CardDescription | undefined {
  const pumps = [...parts.pumps]
    .map(([id, look]) => [id, readPump(look)] as const)
    .filter(([, pump]) => Object.keys(pump).length > 0);
  const hole = lookInto(card, 'hole', HOLE_KEYS);
  const electrical = lookInto(card, 'electrical', ELECTRICAL_KEYS);
  const where = lookInto(card, 'where', PLACES);
  const described: CardDescription = {
    pumps: Object.fromEntries(pumps),
    hole: hole ? readHole(hole) : { checkValves: [] },
    tank: parts.tank ? readTank(parts.tank) : {},
    electrical: electrical ? readElectrical(electrical) : { wires: {}, photos: [] },
    treatment: textsAt(card, 'treatment', { most: MOST_TREATMENTS, longest: LONGEST_LINE }),
    where: where
      ? given(Object.fromEntries(PLACES.map((place) => [place, textAt(where, place, LONGEST_LINE)])))
      : {},
    ...given({
      owner: textAt(card, 'owner', LONGEST_LINE),
      address: textAt(card, 'address', LONGEST_LINE),
      contact: textAt(card, 'contact', LONGEST_LINE),
      firm: textAt(card, 'firm', LONGEST_LINE),
    }),
  };
  return saysSomething(described) ? described : undefined;
}

function readPump(look: Look): PumpDescription {
  return given(
    Object.fromEntries(
      PUMP_DESCRIBED_KEYS.map((key) => [
        key,
        textAt(look, key, key === 'drive' || key === 'float' ? LONGEST_LINE : LONGEST_TEXT),
      ]),
    ),
  );
}

function readTank(look: Look): TankDescription {
  return given({
    maker: textAt(look, 'maker', LONGEST_TEXT),
    model: textAt(look, 'model', LONGEST_TEXT),
    installer: textAt(look, 'installer', LONGEST_TEXT),
    installed: dateAt(look, 'installed'),
  });
}

/** Empty objects and lists say nothing, however deep they lie. */
function saysSomething(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return true;
  return Object.values(value).some(saysSomething);
}
