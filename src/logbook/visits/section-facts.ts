/**
 * What the drawing of the well's section shows: from the card, and levels from the newest reading
 * that somebody took.
 */
import {
  formatDiameter,
  formatMotorPower,
  formatPressure,
  formatVolts,
  formatVolume,
} from '../../../shared/text/en/format.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import type { SectionFacts } from '../../../shared/drawing/section.ts';
import type { Card, PumpCard } from '../../core/domain/card.ts';
import { currentEntries, entriesOf, type Entry } from '../../../shared/entries/entry.ts';
import { type ReadingKind } from '../../../shared/entries/entry-fields.ts';
import { readingSi } from '../entries/read-reading.ts';
import { texts } from '../texts.ts';

/** A measured level goes before the one on the card: it is newer, and somebody measured it. */
export function sectionFacts(
  card: Card | undefined,
  entries: readonly Entry[],
  units: UnitSystem,
): SectionFacts {
  const hole = card?.description?.hole;
  const pump = card?.pumps[0];
  const valves = hole?.checkValves ?? [];
  const staticM = newestLevelM(entries, 'static-level') ?? hole?.staticLevelM;
  const casing = joinKnown([
    hole?.casingDiameterM === undefined ? undefined : formatDiameter(hole.casingDiameterM, units),
    hole?.casingMaterial,
  ]);
  const facts: { [K in keyof SectionFacts]: SectionFacts[K] | undefined } = {
    wellDepthM: hole?.depthM,
    casingDepthM: hole?.casingDepthM,
    casingMaterial: casing,
    staticLevelM: staticM,
    pumpingLevelM: newestLevelM(entries, 'pumping-level'),
    setDepthM: pump?.setDepthM,
    pump: pumpPosition(pump),
    pumpText: pump && pumpWords(pump, card, units),
    dropPipeText: joinKnown([
      hole?.dropPipeDiameterM === undefined ? undefined : formatDiameter(hole.dropPipeDiameterM, units),
      hole?.dropPipeMaterial,
    ]),
    checkValvesM: valves.flatMap((valve) => ('depthM' in valve ? [valve.depthM] : [])),
    checkValveLocations: valves.flatMap((valve) => ('beside' in valve ? [valve.beside] : [])),
    tankText: tankWords(card, units),
    switchText: switchWords(card, units),
  };
  const known = Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined));
  return { checkValvesM: [], checkValveLocations: [], ...known };
}

function newestLevelM(entries: readonly Entry[], what: ReadingKind): number | undefined {
  const last = entriesOf(currentEntries(entries), 'reading').findLast(({ body }) => body.what === what);
  return last && readingSi(last.body)?.si;
}

/**
 * A booster lifts nothing out of the hole, and a jet pump stands above it; of a pump without a kind
 * nobody knows.
 */
function pumpPosition(pump: PumpCard | undefined): SectionFacts['pump'] | undefined {
  if (pump?.kind === undefined) return undefined;
  return pump.kind === 'submersible' ? 'in-the-well' : 'above-ground';
}

function pumpWords(pump: PumpCard, card: Card | undefined, units: UnitSystem): string | undefined {
  const described = card?.description?.pumps[pump.id];
  return joinKnown([
    described?.maker,
    described?.model,
    pump.motorW === undefined ? undefined : formatMotorPower(pump.motorW, units),
    pump.volts === undefined ? undefined : formatVolts(pump.volts),
    pump.wires === undefined ? undefined : texts().section.wires(pump.wires),
  ]);
}

function tankWords(card: Card | undefined, units: UnitSystem): string | undefined {
  const tank = card?.tank;
  if (!tank) return undefined;
  return joinKnown([
    tank.kind === 'plain' ? texts().section.plain : undefined,
    tank.volumeL === undefined ? undefined : formatVolume(tank.volumeL, units),
    tank.prechargeKpa === undefined
      ? undefined
      : texts().section.precharge(formatPressure(tank.prechargeKpa, units)),
  ]);
}

function switchWords(card: Card | undefined, units: UnitSystem): string | undefined {
  const { cutInKpa, cutOutKpa } = card?.switch ?? {};
  return joinKnown([
    cutInKpa === undefined ? undefined : texts().section.onAt(formatPressure(cutInKpa, units)),
    cutOutKpa === undefined ? undefined : texts().section.offAt(formatPressure(cutOutKpa, units)),
  ]);
}

function joinKnown(parts: readonly (string | undefined)[]): string | undefined {
  const known = parts.filter((part) => part !== undefined);
  return known.length === 0 ? undefined : known.join(', ');
}

/**
 * The units in which the card's quantities were written; those of the United States where it says
 * none.
 */
export function unitsOfCard(written: unknown): UnitSystem {
  const text = JSON.stringify(written ?? '');
  const us = /\d ?(psi|ft|gal|gpm|hp|in|F)\b/.test(text);
  return !us && /\d ?(kPa|bar|m|mm|L|kW|L\/min|C)\b/.test(text) ? 'metric' : 'us';
}
