/** What the drawing of the well's section shows: from the card, and levels from the newest reading that somebody took. */
import { sayDiameter, sayMotor, sayPressure, sayVolts, sayVolume } from '../../shared/words/format.ts';
import type { UnitSystem } from '../../shared/quantity/print-quantity.ts';
import type { SectionFacts } from '../../shared/drawing/section.ts';
import type { Card, PumpCard } from '../card/card.ts';
import { currentEntries, type KeptEntry } from './entry.ts';
import { readingSi, type ReadingWhat } from './read-reading.ts';

/** A measured level goes before the one on the card: it is newer, and somebody measured it. */
export function sectionFacts(
  card: Card | undefined,
  entries: readonly KeptEntry[],
  units: UnitSystem,
): SectionFacts {
  const hole = card?.described?.hole;
  const pump = card?.pumps[0];
  const valves = hole?.checkValves ?? [];
  const staticM = newest(entries, 'static-level') ?? hole?.staticLevelM;
  const casing = joined([
    hole?.casingM === undefined ? undefined : sayDiameter(hole.casingM, units),
    hole?.casingOf,
  ]);
  const facts: { [K in keyof SectionFacts]: SectionFacts[K] | undefined } = {
    holeM: hole?.depthM,
    casingToM: hole?.casingToM,
    casingOf: casing,
    staticM,
    pumpingM: newest(entries, 'pumping-level'),
    setM: pump?.setDepthM,
    pump: placeOf(pump),
    pumpSays: pump && pumpWords(pump, card, units),
    dropPipeSays: joined([
      hole?.dropPipeM === undefined ? undefined : sayDiameter(hole.dropPipeM, units),
      hole?.dropPipeOf,
    ]),
    checkValvesM: valves.flatMap((valve) => ('depthM' in valve ? [valve.depthM] : [])),
    checkValvesBeside: valves.flatMap((valve) => ('beside' in valve ? [valve.beside] : [])),
    tankSays: tankWords(card, units),
    switchSays: switchWords(card, units),
  };
  const said = Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined));
  return { checkValvesM: [], checkValvesBeside: [], ...said };
}

function newest(entries: readonly KeptEntry[], what: ReadingWhat): number | undefined {
  const taken = currentEntries(entries).filter(
    ({ kind, body }) => kind === 'reading' && body['what'] === what,
  );
  const last = taken.at(-1);
  return last && readingSi(last.body)?.si;
}

/** A booster lifts nothing out of the hole, and a jet pump stands above it; of a pump without a kind nobody knows. */
function placeOf(pump: PumpCard | undefined): SectionFacts['pump'] | undefined {
  if (pump?.kind === undefined) return undefined;
  return pump.kind === 'submersible' ? 'in-the-hole' : 'above-ground';
}

function pumpWords(pump: PumpCard, card: Card | undefined, units: UnitSystem): string | undefined {
  const described = card?.described?.pumps[pump.id];
  return joined([
    described?.maker,
    described?.model,
    pump.motorW === undefined ? undefined : sayMotor(pump.motorW, units),
    pump.volts === undefined ? undefined : sayVolts(pump.volts),
    pump.wires === undefined ? undefined : `${pump.wires} wires`,
  ]);
}

function tankWords(card: Card | undefined, units: UnitSystem): string | undefined {
  const tank = card?.tank;
  if (!tank) return undefined;
  return joined([
    tank.kind === 'plain' ? 'plain' : undefined,
    tank.volumeL === undefined ? undefined : sayVolume(tank.volumeL, units),
    tank.prechargeKpa === undefined ? undefined : `precharge ${sayPressure(tank.prechargeKpa, units)}`,
  ]);
}

function switchWords(card: Card | undefined, units: UnitSystem): string | undefined {
  const { cutInKpa, cutOutKpa } = card?.switch ?? {};
  return joined([
    cutInKpa === undefined ? undefined : `on at ${sayPressure(cutInKpa, units)}`,
    cutOutKpa === undefined ? undefined : `off at ${sayPressure(cutOutKpa, units)}`,
  ]);
}

function joined(parts: readonly (string | undefined)[]): string | undefined {
  const said = parts.filter((part) => part !== undefined);
  return said.length === 0 ? undefined : said.join(', ');
}

/** The units in which the card's quantities were written; those of the United States where it says none. */
export function unitsOfCard(written: unknown): UnitSystem {
  const text = JSON.stringify(written ?? '');
  const us = /\d ?(psi|ft|gal|gpm|hp|in|F)\b/.test(text);
  return !us && /\d ?(kPa|bar|m|mm|L|kW|L\/min|C)\b/.test(text) ? 'metric' : 'us';
}
