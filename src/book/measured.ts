/**
 * Measured beside written: for each figure of the card that can be measured, what the readings show and what people brought. It judges
 * nothing that a watch judges; it says whether card and well are still the same, so that somebody puts the card right.
 */
import type { Beside, MeasuredFigure } from '../../shared/api/measured.ts';
import { parseQuantity } from '../../shared/quantity/parse-quantity.ts';
import type { Dimension } from '../../shared/quantity/units.ts';
import { kpaFromPsi } from '../../shared/units/pressure.ts';
import type { Baseline, Normal } from '../baseline/baseline.ts';
import type { Card, PumpCard } from '../card/card.ts';
import { withCheckReadings } from './check-readings.ts';
import { currentEntries, type KeptEntry } from './entry.ts';

export interface MeasuredInput {
  card: Card;
  /** What is normal for each pump at present, where that is known. */
  usual: readonly { pump: string; baseline: Baseline }[];
  /** All of the well. */
  entries: readonly KeptEntry[];
}

/** What a switch, a dial and a transducer may differ by, 3 psi (as src/watch/check-pressure.ts); a tyre gauge is no better. */
const PRESSURE_KPA = kpaFromPsi(3);
/** Water tables go up and down by this with the seasons (10 ft; common practice, no source). */
const LEVEL_M = 3.05;
/** Motors are made for 10 % about their voltage (NEMA MG 1; as src/watch/supply-voltage.ts). */
const VOLTS_SHARE = 0.1;

interface Row {
  key: string;
  is: Dimension;
  written: number | undefined;
  judged: Beside['judged'];
  /** How far off is still the same; nothing where the figure is a most or is not judged. */
  near?: (written: number) => number;
  learnt?: Normal | undefined;
  /** What an entry of the same thing calls it. */
  what?: string;
  pump?: string;
}

/** In the card's order; only figures of which something was measured. */
export function measuredBeside({ card, usual, entries }: MeasuredInput): Beside[] {
  const readings = withCheckReadings(currentEntries(entries)).filter(({ kind }) => kind === 'reading');
  return rowsOf(card, usual).flatMap((row): Beside[] => {
    const baseline = usual.find(({ pump }) => pump === (row.pump ?? card.pumps[0]?.id))?.baseline;
    const only = card.pumps.length === 1;
    const measured = [
      ...learntFigure(row, baseline),
      ...readings.filter((entry) => isOf(entry, row, only)).flatMap((entry) => entryFigure(entry, row.is)),
    ];
    const kept = newestOfEach(measured);
    const newest = kept[0];
    if (!newest) return [];
    const differs = row.written === undefined ? undefined : isOff(row, row.written, newest.value);
    return [
      {
        key: row.key,
        is: row.is,
        ...(row.written !== undefined && { written: row.written }),
        measured: kept,
        judged: row.judged,
        ...(differs !== undefined && { differs }),
      },
    ];
  });
}

function rowsOf(card: Card, usual: MeasuredInput['usual']): Row[] {
  const { pumps, switch: points, tank, described } = card;
  // One switch stands over the well's first pump; those of several pumps are no part of the card.
  const first = usual.find(({ pump }) => pump === pumps[0]?.id)?.baseline;
  const pressure = { is: 'pressure', judged: 'same', near: () => PRESSURE_KPA } as const;
  return [
    ...pumps.flatMap((pump) => pumpRows(pump, pumps.length > 1 ? `pumps.${pump.id}.pump` : 'pump', usual)),
    { ...pressure, key: 'switch.cutIn', written: points.cutInKpa, learnt: first?.cutInKpa, what: 'cut-in' },
    {
      ...pressure,
      key: 'switch.cutOut',
      written: points.cutOutKpa,
      learnt: first?.cutOutKpa,
      what: 'cut-out',
    },
    { ...pressure, key: 'tank.precharge', written: tank?.prechargeKpa, what: 'precharge' },
    {
      key: 'hole.staticLevel',
      is: 'length',
      judged: 'same',
      near: () => LEVEL_M,
      written: described?.hole.staticLevelM,
      what: 'static-level',
    },
  ];
}

function pumpRows(pump: PumpCard, path: string, usual: MeasuredInput['usual']): Row[] {
  const { id } = pump;
  const learnt = usual.find((one) => one.pump === id)?.baseline.amps;
  return [
    {
      key: `${path}.volts`,
      is: 'voltage',
      judged: 'same',
      near: (volts) => volts * VOLTS_SHARE,
      written: pump.volts,
      what: 'volts-resting',
      pump: id,
    },
    {
      key: `${path}.maxAmps`,
      is: 'current',
      judged: 'most',
      written: pump.maxAmps,
      learnt,
      what: 'amps',
      pump: id,
    },
    // A pump's rated flow is one at some height of lift: what a bucket shows at the tap is less and no fault.
    { key: `${path}.rated`, is: 'flow', judged: 'not', written: pump.ratedLPerS, what: 'flow', pump: id },
  ];
}

function learntFigure({ learnt }: Row, baseline: Baseline | undefined): MeasuredFigure[] {
  if (!learnt || !baseline) return [];
  return [{ value: learnt.median, atMs: baseline.atMs, from: baseline.pinned ? 'pinned' : 'learnt' }];
}

/** A reading that names no pump is of the only one. */
function isOf({ body }: KeptEntry, row: Row, only: boolean): boolean {
  if (row.what === undefined || body['what'] !== row.what) return false;
  return row.pump === undefined || body['pump'] === row.pump || (only && body['pump'] === undefined);
}

function entryFigure({ body, atMs, by }: KeptEntry, is: Dimension): MeasuredFigure[] {
  const read = parseQuantity(body['value'], is);
  if (!('si' in read)) return [];
  const from = body['pinned'] === true ? 'pinned' : body['from'] === 'sensors' ? 'sensors' : 'hand';
  return [{ value: read.si, atMs, from, ...(by !== undefined && { by }) }];
}

/** The newest of each kind, newest first: ten readings of one dial are no ten facts. */
function newestOfEach(figures: readonly MeasuredFigure[]): MeasuredFigure[] {
  const newest = new Map<MeasuredFigure['from'], MeasuredFigure>();
  for (const figure of figures.toSorted((a, b) => a.atMs - b.atMs)) newest.set(figure.from, figure);
  return [...newest.values()].toSorted((a, b) => b.atMs - a.atMs);
}

function isOff({ judged, near }: Row, written: number, measured: number): boolean | undefined {
  if (judged === 'most') return measured > written;
  return judged === 'same' && near ? Math.abs(measured - written) > near(written) : undefined;
}
