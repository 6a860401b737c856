/**
 * The descriptive part of a card: makers, hole, wiring, treatment, places and people. Its keys stand beside those that the engine reads
 * (`pump.maker` beside `pump.motor`), since whoever writes a card thinks of the pump and not of the engine.
 */
import type { CardDescription, PumpDescription, TankDescription } from './description.ts';
import { LOCATIONS } from './description.ts';
import { MAX_LINE_CHARACTERS, MAX_TEXT_CHARACTERS, MAX_TREATMENTS } from './limits.ts';
import { dateAt, omitUndefined, childContext, textAt, textsAt } from './parse-context.ts';
import type { ParseContext } from './parse-context.ts';
import { ELECTRICAL_KEYS, readElectrical } from './read-electrical.ts';
import { HOLE_KEYS, readHole } from './read-hole.ts';

/** Keys of the whole card that are looked through here. */
export const DESCRIPTION_KEYS = [
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
export const PUMP_DESCRIPTION_KEYS = ['maker', 'model', 'controlBox', 'installer', 'drive', 'float'] as const;
export const TANK_DESCRIPTION_KEYS = ['maker', 'model', 'installer', 'installed'] as const;

/** `pumps`: the look at each pump's object, by its name. Undefined where nothing is said; problems are noted in `card`. */
export function readDescription(
  card: ParseContext,
  parts: { pumps: ReadonlyMap<string, ParseContext>; tank: ParseContext | undefined },
): CardDescription | undefined {
  const pumps = [...parts.pumps]
    .map(([id, context]) => [id, readPump(context)] as const)
    .filter(([, pump]) => Object.keys(pump).length > 0);
  const hole = childContext(card, 'hole', HOLE_KEYS);
  const electrical = childContext(card, 'electrical', ELECTRICAL_KEYS);
  const where = childContext(card, 'where', LOCATIONS);
  const description: CardDescription = {
    pumps: Object.fromEntries(pumps),
    hole: hole ? readHole(hole) : { checkValves: [] },
    tank: parts.tank ? readTank(parts.tank) : {},
    electrical: electrical ? readElectrical(electrical) : { wires: {}, photos: [] },
    treatment: textsAt(card, 'treatment', { maxItems: MAX_TREATMENTS, maxCharacters: MAX_LINE_CHARACTERS }),
    where: where
      ? omitUndefined(
          Object.fromEntries(LOCATIONS.map((place) => [place, textAt(where, place, MAX_LINE_CHARACTERS)])),
        )
      : {},
    ...omitUndefined({
      owner: textAt(card, 'owner', MAX_LINE_CHARACTERS),
      address: textAt(card, 'address', MAX_LINE_CHARACTERS),
      contact: textAt(card, 'contact', MAX_LINE_CHARACTERS),
      firm: textAt(card, 'firm', MAX_LINE_CHARACTERS),
    }),
  };
  return hasContent(description) ? description : undefined;
}

function readPump(context: ParseContext): PumpDescription {
  return omitUndefined(
    Object.fromEntries(
      PUMP_DESCRIPTION_KEYS.map((key) => [
        key,
        textAt(context, key, key === 'drive' || key === 'float' ? MAX_LINE_CHARACTERS : MAX_TEXT_CHARACTERS),
      ]),
    ),
  );
}

function readTank(context: ParseContext): TankDescription {
  return omitUndefined({
    maker: textAt(context, 'maker', MAX_TEXT_CHARACTERS),
    model: textAt(context, 'model', MAX_TEXT_CHARACTERS),
    installer: textAt(context, 'installer', MAX_TEXT_CHARACTERS),
    installed: dateAt(context, 'installed'),
  });
}

/** Empty objects and lists say nothing, however deep they lie. */
function hasContent(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return true;
  return Object.values(value).some(hasContent);
}
