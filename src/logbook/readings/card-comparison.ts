/**
 * Measured beside written: for each figure of the card that can be measured, what the readings show
 * and what people brought. It judges nothing that a watch judges; it says whether card and well are
 * still the same, so that somebody puts the card right.
 */
import type { CardComparison, MeasuredFigure } from '../../../shared/api/card-comparison.ts';
import { parseQuantity } from '../../../shared/quantity/parse-quantity.ts';
import type { Dimension } from '../../../shared/quantity/units.ts';
import { kpaFromPsi } from '../../../shared/units/pressure.ts';
import type { Baseline, Normal } from '../../core/baseline/baseline.ts';
import type { Card, PumpCard } from '../../core/domain/card.ts';
import { withCheckReadings } from './check-readings.ts';
import { currentEntries, entriesOf, type Entry, type EntryOf } from '../../../shared/entries/entry.ts';

export interface ComparisonInput {
  card: Card;
  /** What is normal for each pump at present, where that is known. */
  normals: readonly { pump: string; baseline: Baseline }[];
  /** All of the well. */
  entries: readonly Entry[];
}

/**
 * What a switch, a dial and a transducer may differ by, 3 psi (as
 * src/core/alarms/first-hour/check-pressure.ts); a tyre gauge is no better.
 */
const PRESSURE_TOLERANCE_KPA = kpaFromPsi(3);
/** Water tables go up and down by this with the seasons (10 ft; common practice, no source). */
const LEVEL_TOLERANCE_M = 3.05;
/**
 * Motors are made for 10 % about their voltage (NEMA MG 1; as
 * src/core/alarms/electric/supply-voltage.ts).
 */
const VOLTAGE_TOLERANCE_RATIO = 0.1;

interface ComparisonRow {
  key: string;
  dimension: Dimension;
  written: number | undefined;
  rule: CardComparison['rule'];
  /** How far off is still the same; nothing where the figure is a maximum or is not judged. */
  tolerance?: (written: number) => number;
  learned?: Normal | undefined;
  /** What an entry of the same thing calls it. */
  readingKind?: string;
  pump?: string;
}

/** In the card's order; only figures of which something was measured. */
export function compareWithCard({ card, normals, entries }: ComparisonInput): CardComparison[] {
  const readings = entriesOf(withCheckReadings(currentEntries(entries)), 'reading');
  return comparisonRows(card, normals).flatMap((row): CardComparison[] => {
    const baseline = normals.find(({ pump }) => pump === (row.pump ?? card.pumps[0]?.id))?.baseline;
    const only = card.pumps.length === 1;
    const measured = [
      ...learnedFigure(row, baseline),
      ...readings
        .filter((entry) => matchesRow(entry, row, only))
        .flatMap((entry) => entryFigure(entry, row.dimension)),
    ];
    const figures = newestOfEach(measured);
    const newest = figures[0];
    if (!newest) return [];
    const differs = row.written === undefined ? undefined : differsFromCard(row, row.written, newest.value);
    return [
      {
        key: row.key,
        dimension: row.dimension,
        ...(row.written !== undefined && { written: row.written }),
        measured: figures,
        rule: row.rule,
        ...(differs !== undefined && { differs }),
      },
    ];
  });
}

function comparisonRows(card: Card, normals: ComparisonInput['normals']): ComparisonRow[] {
  const { pumps, switch: points, tank, description } = card;
  // One switch stands over the well's first pump; those of several pumps are no part of the card.
  const first = normals.find(({ pump }) => pump === pumps[0]?.id)?.baseline;
  const pressure = { dimension: 'pressure', rule: 'equal', tolerance: () => PRESSURE_TOLERANCE_KPA } as const;
  return [
    ...pumps.flatMap((pump) => pumpRows(pump, pumps.length > 1 ? `pumps.${pump.id}.pump` : 'pump', normals)),
    {
      ...pressure,
      key: 'switch.cutIn',
      written: points.cutInKpa,
      learned: first?.cutInKpa,
      readingKind: 'cut-in',
    },
    {
      ...pressure,
      key: 'switch.cutOut',
      written: points.cutOutKpa,
      learned: first?.cutOutKpa,
      readingKind: 'cut-out',
    },
    { ...pressure, key: 'tank.precharge', written: tank?.prechargeKpa, readingKind: 'precharge' },
    {
      key: 'hole.staticLevel',
      dimension: 'length',
      rule: 'equal',
      tolerance: () => LEVEL_TOLERANCE_M,
      written: description?.hole.staticLevelM,
      readingKind: 'static-level',
    },
  ];
}

function pumpRows(pump: PumpCard, path: string, normals: ComparisonInput['normals']): ComparisonRow[] {
  const { id } = pump;
  const learned = normals.find((one) => one.pump === id)?.baseline.amps;
  return [
    {
      key: `${path}.volts`,
      dimension: 'voltage',
      rule: 'equal',
      tolerance: (volts) => volts * VOLTAGE_TOLERANCE_RATIO,
      written: pump.volts,
      readingKind: 'volts-resting',
      pump: id,
    },
    {
      key: `${path}.maxAmps`,
      dimension: 'current',
      rule: 'max',
      written: pump.maxAmps,
      learned,
      readingKind: 'amps',
      pump: id,
    },
    // A pump's rated flow is one at some height of lift: what a bucket shows at the tap is less and
    // no fault.
    {
      key: `${path}.rated`,
      dimension: 'flow',
      rule: 'none',
      written: pump.ratedLPerS,
      readingKind: 'flow',
      pump: id,
    },
  ];
}

function learnedFigure({ learned }: ComparisonRow, baseline: Baseline | undefined): MeasuredFigure[] {
  if (!learned || !baseline) return [];
  return [{ value: learned.median, atMs: baseline.atMs, from: baseline.pinned ? 'pinned' : 'learned' }];
}

/** A reading that names no pump is of the only one. */
function matchesRow({ body }: EntryOf<'reading'>, row: ComparisonRow, only: boolean): boolean {
  if (row.readingKind === undefined || body.what !== row.readingKind) return false;
  return row.pump === undefined || body.pump === row.pump || (only && body.pump === undefined);
}

function entryFigure({ body, atMs, by }: EntryOf<'reading'>, is: Dimension): MeasuredFigure[] {
  const read = parseQuantity(body.value, is);
  if (!('si' in read)) return [];
  const from = body.pinned ? 'pinned' : (body.from ?? 'hand');
  return [{ value: read.si, atMs, from, ...(by !== undefined && { by }) }];
}

/** The newest of each kind, newest first: ten readings of one dial are no ten facts. */
function newestOfEach(figures: readonly MeasuredFigure[]): MeasuredFigure[] {
  const newest = new Map<MeasuredFigure['from'], MeasuredFigure>();
  for (const figure of figures.toSorted((a, b) => a.atMs - b.atMs)) newest.set(figure.from, figure);
  return [...newest.values()].toSorted((a, b) => b.atMs - a.atMs);
}

function differsFromCard(
  { rule, tolerance }: ComparisonRow,
  written: number,
  measured: number,
): boolean | undefined {
  if (rule === 'max') return measured > written;
  return rule === 'equal' && tolerance ? Math.abs(measured - written) > tolerance(written) : undefined;
}
